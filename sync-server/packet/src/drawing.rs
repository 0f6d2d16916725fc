//! The basis of every drawing of the office and of a packet: an axis with few marks, a span of time without
//! outliers, and a limited number of points.
//!
//! The functions are total, fast and bounded for all numbers and times a record may hold. No loop counts by
//! adding a step to a number, because for large numbers the addition changes nothing and the loop never ends.
//! Lines and words are drawn by the office's chart pages and by `packet::figures`. The phone's drawings
//! follow the same rules in `bindings/phone/src/look/axis.ts`.

use farsiding_core::units::bounds::DRAWN_AROUND_MILLIS;

/// The largest value that is drawn to scale. Values beyond it are drawn at the edge.
const FARTHEST: f64 = 1e12;
/// The smallest width of an axis, relative to the numbers on it, so that its marks differ within six digits.
const NARROWEST: f64 = 1e-5;
/// The largest number of marks on an axis.
const MOST_MARKS: u8 = 16;
/// The largest number of points that can be told apart on paper or on a screen.
pub const MOST_POINTS: usize = 400;

/// An axis between two round numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// The lower end of the axis.
    pub low: f64,
    /// The upper end of the axis, which is always greater than the lower end.
    pub high: f64,
    /// The numbers written beside the axis in ascending order, including both ends.
    pub marks: Vec<f64>,
    decimals: usize,
}

impl Axis {
    /// Returns an axis that contains both numbers, divided into about `parts` parts and at least `least`
    /// wide. Returns `None` if a number is not finite.
    pub fn over(low: f64, high: f64, parts: u8, least: f64) -> Option<Axis> {
        if !low.is_finite() || !high.is_finite() {
            return None;
        }
        let (low, high) =
            (low.min(high).clamp(-FARTHEST, FARTHEST), low.max(high).clamp(-FARTHEST, FARTHEST));
        let least = if least.is_nan() { 0.0 } else { least };
        let needed = least.clamp(1e-9, FARTHEST).max(NARROWEST * low.abs().max(high.abs()));
        let wider = 0.5 * (needed - (high - low)).max(0.0);
        let (low, high) = (low - wider, high + wider);
        let step = round_step((high - low) / f64::from(parts.clamp(1, 8)));
        // A rounding error in the last bit of the division must not add a mark.
        let (first, last) = ((low / step + 1e-9).floor(), (high / step - 1e-9).ceil());
        let marks = (0..=MOST_MARKS).map(|n| first + f64::from(n)).take_while(|n| *n <= last);
        let marks: Vec<f64> = marks.map(|n| n * step).collect();
        let (low, high) = (*marks.first()?, *marks.last()?);
        let decimals = (-step.log10().floor()).clamp(0.0, 9.0) as usize;
        (high > low).then_some(Axis { low, high, marks, decimals })
    }

    /// Returns the position of a number on the axis, from 0 at the lower end to 1 at the upper end. A number
    /// outside the axis is at its nearer end.
    pub fn share(&self, value: f64) -> f64 {
        let share = (value - self.low) / (self.high - self.low);
        if share.is_nan() { 0.5 } else { share.clamp(0.0, 1.0) }
    }

    /// Returns a mark as text.
    pub fn written(&self, mark: f64) -> String {
        let decimals = self.decimals;
        // A rounding error in the last bit must not print "-0".
        let mark = if mark.abs() < 1e-12 { 0.0 } else { mark };
        format!("{mark:.decimals$}")
    }
}

/// Returns the smallest number that is 1, 2 or 5 times a power of ten and not less than `rough`.
fn round_step(rough: f64) -> f64 {
    let power = 10f64.powf(rough.log10().floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|times| times * power).find(|step| *step >= rough).unwrap_or(rough)
}

/// The span of time that a drawing covers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// The beginning of the span, in milliseconds.
    pub from: i64,
    /// The end of the span, in milliseconds.
    pub until: i64,
}

impl Stretch {
    /// Returns the span from the first to the last of these times. Times more than a month from the median
    /// are left out, because one clock that was never set must not squeeze all other readings into one place.
    /// Returns `None` without times.
    pub fn over(times: impl IntoIterator<Item = i64>) -> Option<Stretch> {
        let mut times: Vec<i64> = times.into_iter().collect();
        times.sort_unstable();
        let middle = *times.get(times.len() / 2)?;
        let near = |at: &&i64| at.saturating_sub(middle).saturating_abs() <= DRAWN_AROUND_MILLIS;
        Some(Stretch { from: *times.iter().find(near)?, until: *times.iter().rev().find(near)? })
    }

    /// Returns whether a time is in the span.
    pub fn holds(&self, at: i64) -> bool {
        (self.from..=self.until).contains(&at)
    }

    /// Returns the position of a time in the span, from 0 to 1.
    pub fn share(&self, at: i64) -> f64 {
        let length = self.until.saturating_sub(self.from).max(1) as f64;
        (at.saturating_sub(self.from) as f64 / length).clamp(0.0, 1.0)
    }
}

/// Returns at most about `most` of the points, in order. Of each section the first, the smallest, the largest
/// and the last point are kept.
pub fn thinned<T>(points: &[T], most: usize, value: impl Fn(&T) -> f64) -> Vec<&T> {
    if points.len() <= most.max(8) {
        return points.iter().collect();
    }
    let length = points.len().div_ceil(most.max(8) / 4);
    let mut kept = Vec::new();
    for (part, stretch) in points.chunks(length).enumerate() {
        let by_value = |a: &usize, b: &usize| value(&stretch[*a]).total_cmp(&value(&stretch[*b]));
        let least = (0..stretch.len()).min_by(by_value).unwrap_or(0);
        let greatest = (0..stretch.len()).max_by(by_value).unwrap_or(0);
        let mut places = [0, least, greatest, stretch.len() - 1].map(|at| part * length + at).to_vec();
        places.sort_unstable();
        places.dedup();
        kept.extend(places.into_iter().filter_map(|at| points.get(at)));
    }
    kept
}

/// The largest duration of any drawing: the promised one in a release build, and ten times as much in a debug
/// build, which was measured to need less than a third of that.
#[cfg(any(test, feature = "testing"))]
pub const LONGEST: std::time::Duration =
    std::time::Duration::from_millis(if cfg!(debug_assertions) { 100 } else { 10 });

/// Returns the drawing and the shortest time that drawing took. Several runs are timed, so that a machine
/// busy with something else does not count against the drawing.
#[cfg(any(test, feature = "testing"))]
pub fn drawn_in_time<T>(draw: impl Fn() -> T) -> (T, std::time::Duration) {
    let timed = || {
        let began = std::time::Instant::now();
        (draw(), began.elapsed())
    };
    let mut best = timed();
    for _ in 0..20 {
        if best.1 < LONGEST {
            break;
        }
        let again = timed();
        if again.1 < best.1 {
            best = again;
        }
    }
    best
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use proptest::prelude::*;

    fn any_number() -> impl Strategy<Value = f64> {
        prop_oneof![
            any::<f64>(),
            -1e3..1e3_f64,
            prop::sample::select(vec![0.0, 1e17, -1e17, f64::MAX, f64::MIN, 5e-324, 1e-20, f64::NAN])
        ]
    }

    #[test]
    fn marks_are_round_and_hold_what_is_between_them() {
        let axis = Axis::over(40.0, 93.0, 4, 1e-9).unwrap();
        assert_eq!(axis.marks, [40.0, 60.0, 80.0, 100.0]);
        assert_eq!(axis.written(60.0), "60");
        let axis = Axis::over(0.53, 0.56, 4, 1e-9).unwrap();
        assert_eq!((axis.written(axis.marks[0]).as_str(), axis.marks.len()), ("0.53", 4));
        let axis = Axis::over(-0.4, 0.4, 4, 1e-9).unwrap();
        assert!(axis.marks.iter().any(|mark| axis.written(*mark) == "0.0"), "{axis:?}");
    }

    #[test]
    fn two_readings_of_a_hundred_thousand_billion_pounds_have_an_axis_too() {
        for (a, b) in
            [(1e17, 1.000_000_000_000_000_1e17), (1e17, 1e17), (1e17, 2e17), (0.0, 1e-20), (5.0, 5.0)]
        {
            let axis = Axis::over(a, b, 4, 1e-9).unwrap();
            assert!((2..=16).contains(&axis.marks.len()), "{axis:?}");
        }
    }

    #[test]
    fn a_clock_never_set_stretches_nothing() {
        let hour = 3_600_000;
        let now = 1_795_528_800_000;
        let stretch = Stretch::over([0, now, now + hour, now + 2 * hour, 32_503_680_000_000]).unwrap();
        assert_eq!(stretch, Stretch { from: now, until: now + 2 * hour });
        assert!(!stretch.holds(0) && stretch.holds(now + 1));
        assert_eq!(Stretch::over([]), None);
    }

    #[test]
    fn the_extremes_of_a_long_series_are_kept() {
        let mut points: Vec<f64> = (0..100_000).map(|n| f64::from(n % 10)).collect();
        (points[77_777], points[33_333]) = (99.0, -99.0);
        let kept = thinned(&points, MOST_POINTS, |point| *point);
        assert!(kept.len() <= MOST_POINTS && kept.contains(&&99.0) && kept.contains(&&-99.0));
        assert!(std::ptr::eq(kept[0], &points[0]) && std::ptr::eq(kept[kept.len() - 1], &points[99_999]));
    }

    proptest! {
        #[test]
        fn any_two_numbers_have_an_axis_of_few_marks(
            a in any_number(), b in any_number(), parts in any::<u8>(), least in any_number(), c in any_number()
        ) {
            let axis = Axis::over(a, b, parts, least.abs());
            prop_assert_eq!(axis.is_some(), a.is_finite() && b.is_finite());
            if let Some(axis) = axis {
                prop_assert!((2..=usize::from(MOST_MARKS) + 1).contains(&axis.marks.len()), "{:?}", axis);
                prop_assert!(axis.marks.windows(2).all(|pair| pair[0] < pair[1]));
                prop_assert!((0.0..=1.0).contains(&axis.share(c)));
                prop_assert!(axis.marks.iter().all(|mark| axis.written(*mark).len() < 32));
            }
        }

        #[test]
        fn any_times_have_a_stretch_no_longer_than_two_months(times in prop::collection::vec(any::<i64>(), 1..20)) {
            let stretch = Stretch::over(times.iter().copied());
            prop_assert!(stretch.is_some_and(|s| s.until.saturating_sub(s.from) <= 2 * DRAWN_AROUND_MILLIS));
            prop_assert!(times.iter().all(|at| (0.0..=1.0).contains(&stretch.unwrap().share(*at))));
        }

        #[test]
        fn few_points_are_left_of_many(points in prop::collection::vec(any_number(), 0..3_000), most in 0..500_usize) {
            let kept = thinned(&points, most, |point| *point);
            prop_assert!(kept.len() <= most.max(8).max(points.len().min(8)) + 4);
        }
    }
}
