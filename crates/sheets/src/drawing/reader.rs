//! Values as the reader of a drawing sees them.

use quantity::unit::{DEG, M};
use quantity::{System, Unit, show_with};

/// Writes values in the units of a reader.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reader {
    pub(super) system: System,
}

impl Reader {
    /// The unit of lengths.
    pub(super) fn unit(self) -> Unit {
        M.in_system(self.system)
    }

    /// A length with its unit.
    pub(super) fn length(self, metres: f64) -> String {
        show_with(metres, M, self.system)
    }

    /// A level or chainage with two decimals, without its unit.
    pub(super) fn figure(self, metres: f64) -> String {
        fixed(self.unit().from_si(metres), 2)
    }

    /// A level or chainage with two decimals and its unit.
    pub(super) fn place(self, metres: f64) -> String {
        format!("{} {}", self.figure(metres), self.unit().symbol())
    }

    /// The smallest of 1, 2 and 5 times a power of ten of the unit that is no less than `least` metres; in metres.
    pub(super) fn step(self, least: f64) -> f64 {
        let unit = self.unit();
        let least = unit.from_si(least).max(1e-3);
        let power = 10_f64.powf(least.log10().floor());
        let of = [1.0, 2.0, 5.0, 10.0].into_iter().find(|f| f * power >= least * (1.0 - 1e-9));
        unit.to_si(of.unwrap_or(10.0) * power)
    }

    /// A multiple of a step, with as many decimals as the step has.
    pub(super) fn round(self, metres: f64, step: f64) -> String {
        let step = self.unit().from_si(step);
        let decimals = if step >= 1.0 {
            0
        } else if step >= 0.1 {
            1
        } else {
            2
        };
        fixed(self.unit().from_si(metres), decimals)
    }
}

/// An angle in degrees, two decimals.
pub(super) fn degrees(rad: f64) -> String {
    format!("{}°", fixed(DEG.from_si(rad), 2))
}

/// A number with so many decimals; never a negative zero.
pub(super) fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| c == '0' || c == '.') => rest.to_owned(),
        _ => text,
    }
}

/// Multiples of a step from one value to another.
pub(super) fn multiples(from: f64, to: f64, step: f64) -> Vec<f64> {
    let mut list = Vec::new();
    let mut k = (from / step - 1e-9).ceil();
    while k * step <= to + 1e-9 * step && list.len() < 10_000 {
        list.push(k * step);
        k += 1.0;
    }
    list
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_round_in_the_unit_of_the_reader() {
        let metric = Reader { system: System::Metric };
        assert_eq!(metric.step(7.3), 10.0);
        assert_eq!(metric.step(0.11), 0.2);
        assert_eq!(metric.step(20.0), 20.0);
        let customary = Reader { system: System::Customary };
        assert!((customary.step(7.3) / 0.3048 - 50.0).abs() < 1e-9);
        assert_eq!(customary.place(0.3048), "1.00 ft");
        assert_eq!(fixed(-0.001, 2), "0.00");
        assert_eq!(multiples(-1.0, 11.0, 5.0), [0.0, 5.0, 10.0]);
    }
}
