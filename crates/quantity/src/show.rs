use std::cell::Cell;

use crate::{System, Unit};

thread_local! {
    static READER: Cell<System> = const { Cell::new(System::Metric) };
}

/// Does some work during which texts made by [`show`] and by the `Display` of quantities are in the units of a reader.
///
/// Only texts change, never numbers: it reaches the sentences that calculation and reading make without every one of
/// them having to be told who reads. It holds for this thread and ends with the work.
pub fn for_reader<R>(system: System, work: impl FnOnce() -> R) -> R {
    struct Restore(System);
    impl Drop for Restore {
        fn drop(&mut self) {
            READER.set(self.0);
        }
    }
    let _restore = Restore(READER.replace(system));
    work()
}

/// The unit system in which texts are made on this thread; metric unless [`for_reader`] says otherwise.
#[must_use]
pub fn reader() -> System {
    READER.get()
}

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

/// Text of an SI value in a unit, for the reader of [`for_reader`]; metric unless it says otherwise.
#[must_use]
pub fn show(si: f64, unit: Unit) -> String {
    show_with(si, unit, READER.get())
}

/// As [`show`], with as few digits as a size in a sentence needs: whole millimetres, three digits of anything else.
#[must_use]
pub fn show_briefly(si: f64, unit: Unit) -> String {
    let unit = unit.in_system(READER.get());
    let value = unit.from_si(si);
    if unit.symbol() == "mm" {
        return format!("{value:.0} mm");
    }
    format!("{} {}", significant(value, 3), unit.symbol())
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
    fn a_reader_is_served_during_the_work_and_no_longer() {
        let length = crate::Length::metres(3.048);
        let text = for_reader(System::Customary, || {
            format!("{length}, {}", show_briefly(0.254, unit::MM))
        });
        assert_eq!(text, "10 ft, 10 in");
        assert_eq!(format!("{length}, {}", show_briefly(0.2544, unit::MM)), "3.048 m, 254 mm");
        let caught =
            std::panic::catch_unwind(|| for_reader(System::Customary, || panic!("on purpose")));
        assert!(caught.is_err());
        assert_eq!(show(1.0, unit::M), "1 m");
    }

    #[test]
    fn customary_readers_get_customary_units() {
        assert_eq!(show_with(12_000.0, unit::KN, System::Metric), "12 kN");
        assert_eq!(show_with(3.048, unit::M, System::Customary), "10 ft");
        assert_eq!(show_with(0.0, unit::ONE, System::Metric), "0");
    }
}
