use quantity::{Kind, Unit, parse};

/// How a calculated value is held against a printed one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    /// Within the tolerance.
    Near,
    /// Rounded down to the last printed digit, as some tables are.
    Floor,
}

/// A printed value with what its text says about its accuracy.
#[derive(Debug, Clone, PartialEq)]
pub struct Expectation {
    /// As printed.
    text: String,
    /// In the printed unit.
    value: f64,
    unit: Unit,
    /// One in the last printed place.
    last_place: f64,
    /// In the printed unit.
    tolerance: f64,
    way: Way,
}

/// A calculated value beside the printed one.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Whether they agree.
    pub agrees: bool,
    /// Expected, calculated, error and tolerance, for a person.
    pub text: String,
}

impl Expectation {
    /// Reads a printed value, a tolerance and a way of comparing.
    ///
    /// A tolerance without unit is in the printed unit; without a tolerance half of the last printed place holds.
    ///
    /// # Errors
    /// What cannot be read.
    pub fn read(
        text: &str,
        kind: Kind,
        tolerance: Option<&str>,
        way: Option<&str>,
    ) -> Result<Self, String> {
        let (si, unit) = parse(text, kind).map_err(|e| e.to_string())?;
        let number = leading_number(text);
        let (value, last_place) = match number.parse::<f64>() {
            Ok(printed) if same(unit.to_si(printed), si) => (printed, last_place(number)),
            _ if tolerance.is_some() => (unit.from_si(si), 0.0),
            _ => return Err(format!("\"{text}\" has no last digit; give a tolerance")),
        };
        let tolerance = match tolerance {
            None => last_place / 2.0,
            Some(given) => read_tolerance(given, kind, unit)?,
        };
        let way = match way {
            None | Some("near") => Way::Near,
            Some("floor") => Way::Floor,
            Some(other) => return Err(format!("compare must be near or floor, not \"{other}\"")),
        };
        Ok(Self { text: text.to_owned(), value, unit, last_place, tolerance, way })
    }

    /// Holds a calculated SI value against the printed one.
    #[must_use]
    pub fn compare(&self, calculated_si: f64) -> Comparison {
        let calculated = self.unit.from_si(calculated_si);
        let error = calculated - self.value;
        let (agrees, rule) = match self.way {
            Way::Near => {
                // Rounding of the conversion must not decide about a value on the edge.
                let slack = 1e-9 * self.tolerance + 8.0 * f64::EPSILON * self.value.abs();
                (error.abs() <= self.tolerance + slack, format!("tolerance {}", self.tolerance))
            }
            Way::Floor => {
                let places = |x: f64| x / self.last_place;
                let floor = (places(calculated) + 1e-9).floor();
                let agrees = same(floor, places(self.value).round());
                (agrees, "rounded down to the last printed digit".to_owned())
            }
        };
        let symbol = self.unit.symbol();
        let text = format!(
            "expected {}, calculated {calculated:.*} {symbol}, error {error:.3e}, {rule}",
            self.text,
            self.places() + 2,
        );
        Comparison { agrees, text }
    }

    /// Printed places behind the point.
    fn places(&self) -> usize {
        let number = leading_number(&self.text);
        number.split_once('.').map_or(0, |(_, behind)| behind.len())
    }
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-12 * a.abs().max(b.abs())
}

fn read_tolerance(text: &str, kind: Kind, unit: Unit) -> Result<f64, String> {
    let number = quantity::parse_number(text);
    let value = match number {
        Some(bare) => bare,
        None => unit.from_si(parse(text, kind).map_err(|e| format!("tolerance: {e}"))?.0),
    };
    if value >= 0.0 { Ok(value) } else { Err(format!("tolerance \"{text}\" is negative")) }
}

/// The number at the start of a printed value, without its unit.
pub(super) fn leading_number(text: &str) -> &str {
    let text = text.trim();
    let longest = text
        .char_indices()
        .map(|(at, c)| at + c.len_utf8())
        .rfind(|end| text[..*end].parse::<f64>().is_ok());
    &text[..longest.unwrap_or(0)]
}

/// One in the last place of a decimal number: 0.01 for "1.20", 10 for "3.2e2".
pub(super) fn last_place(number: &str) -> f64 {
    let (digits, exponent) = number.split_once(['e', 'E']).unwrap_or((number, "0"));
    let behind = digits.split_once('.').map_or(0, |(_, behind)| behind.len());
    let behind = i32::try_from(behind).unwrap_or(i32::MAX);
    10f64.powi(exponent.parse().unwrap_or(0i32).saturating_sub(behind))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn agrees(text: &str, kind: Kind, si: f64) -> bool {
        Expectation::read(text, kind, None, None).unwrap().compare(si).agrees
    }

    #[test]
    fn half_of_the_last_printed_digit_is_the_tolerance() {
        assert!(agrees("69 m", Kind::Length, 69.5));
        assert!(agrees("69 m", Kind::Length, 68.5));
        assert!(!agrees("69 m", Kind::Length, 69.51));
        assert!(agrees("1.20", Kind::Ratio, 1.2049));
        assert!(!agrees("1.2000", Kind::Ratio, 1.2049));
        assert!(agrees("-6.5 mm", Kind::Length, -0.006_545));
        assert!(!agrees("6.5 mm", Kind::Length, -0.0065));
        assert!(agrees("3.2e2 kN", Kind::Force, 324e3));
        assert!(!agrees("3.2e2 kN", Kind::Force, 326e3));
        assert!(agrees("4387 lbf", Kind::Force, 4387.4 * 4.448_221_615_260_5));
        assert!(agrees("0 kN", Kind::Force, 400.0));
    }

    #[test]
    fn tolerance_may_be_given_in_any_unit_of_the_kind_or_bare() {
        let read = |t| Expectation::read("714.7 mm", Kind::Length, Some(t), None);
        assert!(read("1 mm").unwrap().compare(0.7156).agrees);
        assert!(read("0.001 m").unwrap().compare(0.7156).agrees);
        assert!(read("1").unwrap().compare(0.7156).agrees);
        assert!(!read("0.5").unwrap().compare(0.7156).agrees);
        assert!(read("1 kN").is_err());
        assert!(read("-1").is_err());
    }

    #[test]
    fn floor_keeps_the_printed_digits() {
        let floor = |text| Expectation::read(text, Kind::Length, None, Some("floor")).unwrap();
        assert!(floor("69 ft").compare(69.99 * 0.3048).agrees);
        assert!(!floor("69 ft").compare(70.01 * 0.3048).agrees);
        assert!(!floor("69 ft").compare(68.99 * 0.3048).agrees);
        assert!(floor("6.9 m").compare(6.99).agrees);
        assert!(floor("70 ft").compare(70.0 * 0.3048).agrees);
    }

    #[test]
    fn unreadable_expectations_are_refused() {
        assert!(Expectation::read("m", Kind::Length, None, None).is_err());
        assert!(Expectation::read("3 kN", Kind::Length, None, None).is_err());
        assert!(Expectation::read("3 m", Kind::Length, None, Some("about")).is_err());
        assert!(Expectation::read("5 ft 6 in", Kind::Length, None, None).is_err());
        let mixed = Expectation::read("5 ft 6 in", Kind::Length, Some("0.01 ft"), None).unwrap();
        assert!(mixed.compare(1.6764).agrees);
        assert!(!mixed.compare(1.68).agrees);
    }

    #[test]
    fn not_a_number_never_agrees() {
        assert!(!agrees("69 m", Kind::Length, f64::NAN));
        assert!(!agrees("69 m", Kind::Length, f64::INFINITY));
    }
}
