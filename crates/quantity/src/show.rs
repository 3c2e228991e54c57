use crate::{System, Unit};

/// Text of an SI value in a unit of a system, four significant digits or more: `162.4 kN`.
#[must_use]
pub fn show_with(si: f64, unit: Unit, system: System) -> String {
    let unit = unit.in_system(system);
    let number = significant(unit.from_si(si), 4);
    match unit.symbol() {
        "" => number,
        symbol => format!("{number} {symbol}"),
    }
}

/// Text of an SI value in a unit, metric readers.
#[must_use]
pub fn show(si: f64, unit: Unit) -> String {
    show_with(si, unit, System::Metric)
}

/// A number with at least `digits` significant digits; no exponent between 1e-4 and 1e7.
///
/// Digits before the point are never rounded away: `12345.6` prints as `12346` with four digits.
#[must_use]
pub fn significant(value: f64, digits: usize) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    if !value.is_finite() {
        return value.to_string();
    }
    let magnitude = value.abs().log10().floor();
    if !(-4.0..7.0).contains(&magnitude) {
        return format!("{value:.*e}", digits.saturating_sub(1));
    }
    #[expect(clippy::cast_possible_truncation, reason = "magnitude lies in -4..7")]
    let decimals = (digits as i32 - 1 - magnitude as i32).max(0);
    let text = format!("{value:.*}", usize::try_from(decimals).unwrap_or(0));
    let text =
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit;

    #[test]
    fn four_digits_are_kept_and_whole_digits_never_lost() {
        assert_eq!(significant(162.437, 4), "162.4");
        assert_eq!(significant(12_345.6, 4), "12346");
        assert_eq!(significant(0.012_345, 4), "0.01235");
        assert_eq!(significant(3.0, 4), "3");
        assert_eq!(significant(-0.0, 4), "0");
        assert_eq!(significant(1.7e11, 4), "1.700e11");
        assert_eq!(significant(9.9999, 3), "10");
    }

    #[test]
    fn customary_readers_get_customary_units() {
        assert_eq!(show_with(12_000.0, unit::KN, System::Metric), "12 kN");
        assert_eq!(show_with(3.048, unit::M, System::Customary), "10 ft");
        assert_eq!(show_with(0.0, unit::ONE, System::Metric), "0");
    }
}
