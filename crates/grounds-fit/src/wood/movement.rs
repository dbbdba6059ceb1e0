//! How much wider or narrower a piece gets.

/// The moisture above which wood no longer swells, in percent (fibre saturation as the Wood
/// Handbook takes it for its equations).
const SATURATED: f64 = 30.0;

/// The change of width in mm of a piece `width` mm wide that goes from one moisture in percent to
/// another; above zero where it gets wider.
///
/// ΔD = D · C · (M₁ − M₀), with `coefficient` C per percent. Source: USDA Wood Handbook, equation
/// 13-2 \[published\], meant for 6–14 %; see [`change_by_shrinkage`] beyond that.
///
/// ```
/// // The handbook's own example: white fir, sawn flat, 232 mm, from 8 to 11 %.
/// let wider = grounds_fit::wood::change(232.0, 0.00245, 8.0, 11.0);
/// assert!((wider - 1.7).abs() < 0.01);
/// ```
#[must_use]
pub fn change(width: f64, coefficient: f64, from: f64, to: f64) -> f64 {
    width * coefficient * (to - from)
}

/// The change of width in mm of a piece that goes from one moisture in percent to another, from
/// its shrinkage S in percent between green and oven-dry:
/// ΔD = D · (M₁ − M₀) / (30 · 100/S − 30 + M₀).
///
/// Both moistures are held to 0–30 %, since wetter wood swells no more; 0 unless the shrinkage is
/// above zero. Source: USDA Wood Handbook, equation 13-3 \[memory\].
#[must_use]
pub fn change_by_shrinkage(width: f64, shrinkage: f64, from: f64, to: f64) -> f64 {
    if shrinkage.is_nan() || shrinkage <= 0.0 {
        return 0.0;
    }
    let (from, to) = (from.clamp(0.0, SATURATED), to.clamp(0.0, SATURATED));
    width * (to - from) / (SATURATED * 100.0 / shrinkage - SATURATED + from)
}
