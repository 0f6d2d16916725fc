//! The numbers that an organisation can set in a procedure, each with its unit, its bounds and its default. The
//! default and the bounds were chosen for this program, no source; local codes come first.
//!
//! They stand in the table `[thresholds]` of a text. What follows from them is decided in `view`.

use serde::{Deserialize, Serialize};

/// One number that can be set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Threshold {
    /// How often a step that repeats is due, where it has no interval of its own.
    ReadingInterval,
    /// The least time for which a pressure is held before the hold says anything.
    Hold,
    /// The largest span of a gauge that fits for the final pressure.
    FinalPressureSpan,
    /// The longest time without a sign of attendance at a connected car before a gap is reported.
    AttendanceGap,
    /// How often whoever has the car, often alone, says that all is well.
    CheckIn,
}

/// The unit of a threshold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThresholdUnit {
    /// Minutes.
    Minutes,
    /// Pounds per square inch, gauge.
    PsiGauge,
}

impl Threshold {
    /// Every threshold, in the order of their settings.
    pub const ALL: [Threshold; 5] = [
        Threshold::ReadingInterval,
        Threshold::Hold,
        Threshold::FinalPressureSpan,
        Threshold::AttendanceGap,
        Threshold::CheckIn,
    ];

    /// Returns the key in the table.
    pub const fn word(self) -> &'static str {
        match self {
            Threshold::ReadingInterval => "reading_interval_minutes",
            Threshold::Hold => "hold_minutes",
            Threshold::FinalPressureSpan => "final_pressure_span_psi",
            Threshold::AttendanceGap => "attendance_gap_minutes",
            Threshold::CheckIn => "check_in_minutes",
        }
    }

    /// Returns the threshold with this key.
    pub fn read(word: &str) -> Option<Threshold> {
        Threshold::ALL.into_iter().find(|threshold| threshold.word() == word)
    }

    /// Returns the unit.
    pub const fn unit(self) -> ThresholdUnit {
        match self {
            Threshold::FinalPressureSpan => ThresholdUnit::PsiGauge,
            Threshold::ReadingInterval | Threshold::Hold | Threshold::AttendanceGap | Threshold::CheckIn => {
                ThresholdUnit::Minutes
            }
        }
    }

    /// Returns the smallest and the largest number that can be set.
    pub const fn bounds(self) -> (u32, u32) {
        match self {
            Threshold::ReadingInterval => (5, 240),
            Threshold::Hold => (1, 1440),
            Threshold::FinalPressureSpan => (15, 600),
            Threshold::AttendanceGap => (1, 240),
            Threshold::CheckIn => (5, 120),
        }
    }

    /// Returns what applies where nothing is set. Without a number, the site's own limit or none applies.
    pub const fn usual(self) -> Option<u32> {
        match self {
            Threshold::ReadingInterval => Some(60),
            Threshold::FinalPressureSpan => Some(100),
            Threshold::Hold | Threshold::AttendanceGap | Threshold::CheckIn => None,
        }
    }
}

/// The thresholds that a procedure sets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Thresholds {
    /// [`Threshold::ReadingInterval`].
    pub reading_interval_minutes: Option<u32>,
    /// [`Threshold::Hold`].
    pub hold_minutes: Option<u32>,
    /// [`Threshold::FinalPressureSpan`].
    pub final_pressure_span_psi: Option<u32>,
    /// [`Threshold::AttendanceGap`].
    pub attendance_gap_minutes: Option<u32>,
    /// [`Threshold::CheckIn`].
    pub check_in_minutes: Option<u32>,
}

impl Thresholds {
    /// Returns the number that is set.
    pub const fn get(&self, threshold: Threshold) -> Option<u32> {
        match threshold {
            Threshold::ReadingInterval => self.reading_interval_minutes,
            Threshold::Hold => self.hold_minutes,
            Threshold::FinalPressureSpan => self.final_pressure_span_psi,
            Threshold::AttendanceGap => self.attendance_gap_minutes,
            Threshold::CheckIn => self.check_in_minutes,
        }
    }

    /// Returns a threshold whose number lies outside its bounds.
    pub(super) fn out_of_bounds(&self) -> Option<Threshold> {
        Threshold::ALL.into_iter().find(|threshold| {
            let (least, most) = threshold.bounds();
            self.get(*threshold).is_some_and(|number| !(least..=most).contains(&number))
        })
    }
}
