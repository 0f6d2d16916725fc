//! The curve through a table's rows: slopes that keep it monotone, and the cubic between two rows.
//!
//! The module is pure geometry on rows (x, y) with rising x and falling y; it knows no units.

/// Slopes at the rows: those of the polynomial through the five nearest rows, cut down where they would let
/// the curve rise (Hyman's filter: no steeper than three times the flatter neighbouring secant).
pub(super) fn slopes(rows: &[(f64, f64)]) -> Vec<f64> {
    let secant = |at: usize| (rows[at + 1].1 - rows[at].1) / (rows[at + 1].0 - rows[at].0);
    let last = rows.len() - 1;
    let wanted = rows.len().min(5);
    (0..=last)
        .map(|at| {
            let start = at.saturating_sub(wanted / 2).min(rows.len() - wanted);
            let slope = slope_through(&rows[start..start + wanted], at - start);
            let flattest = match at {
                0 => secant(0).abs(),
                _ if at == last => secant(last - 1).abs(),
                _ => secant(at - 1).abs().min(secant(at).abs()),
            };
            slope.clamp(-3.0 * flattest, 0.0)
        })
        .collect()
}

/// The slope, at one of them, of the polynomial through all points.
fn slope_through(points: &[(f64, f64)], at: usize) -> f64 {
    let (x, y) = points[at];
    let others = || points.iter().enumerate().filter(|(other, _)| *other != at);
    let mut slope: f64 = others().map(|(_, (other, _))| y / (x - other)).sum();
    for (j, (xj, yj)) in others() {
        let product: f64 = points
            .iter()
            .enumerate()
            .filter(|(other, _)| *other != j && *other != at)
            .map(|(_, (other, _))| (x - other) / (xj - other))
            .product();
        slope += yj * product / (xj - x);
    }
    slope
}

/// The cubic through four points, at `x`.
pub(super) fn cubic_through(points: &[(f64, f64); 4], x: f64) -> f64 {
    let weight = |at: usize| -> f64 {
        (0..4)
            .filter(|other| *other != at)
            .map(|other| (x - points[other].0) / (points[at].0 - points[other].0))
            .product()
    };
    (0..4).map(|at| points[at].1 * weight(at)).sum()
}
