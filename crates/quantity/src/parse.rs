use crate::{Kind, Unit};

/// Why a text is not the quantity that was asked for.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ParseError {
    /// The text holds no number at its start.
    #[error("expected {} such as \"{example}\", found \"{text}\"", kind.name())]
    NotANumber {
        /// What was written.
        text: String,
        /// What was asked for.
        kind: Kind,
        /// A text that would do.
        example: String,
    },
    /// The number is infinite, not a number, or too large to hold.
    #[error("the number in \"{text}\" is not finite")]
    NotFinite {
        /// What was written.
        text: String,
    },
    /// The unit belongs to another kind, or to none.
    #[error("\"{symbol}\" is not a unit of {}; allowed: {allowed}", kind.name())]
    WrongUnit {
        /// The unit that was written.
        symbol: String,
        /// What was asked for.
        kind: Kind,
        /// The units that would do.
        allowed: String,
    },
    /// A comma or a space stands between the digits of a number.
    #[error(
        "\"{text}\" has a comma or a space between digits; write a decimal point and no \
         thousands separator: {suggestion}"
    )]
    Separator {
        /// What was written.
        text: String,
        /// The same as it may be meant, in quotes; both readings where there are two.
        suggestion: String,
    },
}

/// Reads a quantity: a number, an optional space, and a unit. A bare number is in the SI unit of the kind.
///
/// Returns the value in SI and the unit that was written. Feet and inches may be joined: `12 ft 6 in`.
///
/// # Errors
/// [`ParseError`] says what was found and which units are allowed.
pub fn parse(text: &str, kind: Kind) -> Result<(f64, Unit), ParseError> {
    let trimmed = text.trim();
    let (value, rest) = split_number(trimmed).ok_or_else(|| not_a_number(text, kind))?;
    if !value.is_finite() {
        return Err(ParseError::NotFinite { text: text.to_owned() });
    }
    let symbol = rest.trim();
    if symbol.is_empty() {
        return Ok((value, kind.si()));
    }
    if kind == Kind::Length
        && let Some(total) = feet_and_inches(value, symbol)
    {
        return Ok((total, crate::unit::FT));
    }
    let unit = Unit::find(symbol, kind).ok_or_else(|| match without_separators(trimmed) {
        Some(suggestion) => ParseError::Separator { text: trimmed.to_owned(), suggestion },
        None => ParseError::WrongUnit { symbol: symbol.to_owned(), kind, allowed: allowed(kind) },
    })?;
    let si = unit.to_si(value);
    if si.is_finite() {
        Ok((si, unit))
    } else {
        Err(ParseError::NotFinite { text: text.to_owned() })
    }
}

/// Reads a plain number that fills the whole text.
#[must_use]
pub fn parse_number(text: &str) -> Option<f64> {
    let (value, rest) = split_number(text.trim())?;
    (rest.is_empty() && value.is_finite()).then_some(value)
}

fn feet_and_inches(feet: f64, rest: &str) -> Option<f64> {
    let after = rest.strip_prefix("ft").or_else(|| rest.strip_prefix('\''))?.trim();
    let (inches, symbol) = split_number(after)?;
    let inch = Unit::find(symbol.trim(), Kind::Length).filter(|u| u.symbol() == "in")?;
    (inches.is_finite() && inches >= 0.0).then(|| {
        let sign = if feet.is_sign_negative() { -1.0 } else { 1.0 };
        crate::unit::FT.to_si(feet) + sign * inch.to_si(inches)
    })
}

/// The longest prefix that is a decimal number, and what follows.
fn split_number(text: &str) -> Option<(f64, &str)> {
    let bytes = text.as_bytes();
    let digits = |from: usize| bytes[from..].iter().take_while(|b| b.is_ascii_digit()).count();
    let mut end = usize::from(matches!(bytes.first(), Some(b'+' | b'-')));
    let whole = digits(end);
    end += whole;
    let mut fraction = 0;
    if bytes.get(end) == Some(&b'.') {
        fraction = digits(end + 1);
        end += 1 + fraction;
    }
    if whole + fraction == 0 {
        return None;
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let exponent = digits(end + 1 + sign);
        if exponent > 0 {
            end += 1 + sign + exponent;
        }
    }
    text[..end].parse().ok().map(|v| (v, &text[end..]))
}

/// The text as it may be meant where a comma or a space stands between digits; `None` where none
/// does.
///
/// One comma before three digits may be either kind of separator: both readings are given, for
/// nobody but the writer knows which is meant.
fn without_separators(text: &str) -> Option<String> {
    let bytes = text.as_bytes();
    let digit = |i: Option<usize>| i.and_then(|i| bytes.get(i)).is_some_and(u8::is_ascii_digit);
    let separates = |i: usize| {
        let between = digit(i.checked_sub(1)) && digit(i.checked_add(1));
        let three = (1..=3).all(|n| digit(Some(i + n))) && !digit(Some(i + 4));
        between && (bytes.get(i) == Some(&b',') || bytes.get(i) == Some(&b' ') && three)
    };
    let first = (0..bytes.len()).find(|i| separates(*i))?;
    let part = |i: usize| digit(Some(i)) || bytes.get(i) == Some(&b'.') || separates(i);
    let from = (0..first).rev().take_while(|i| part(*i)).last()?;
    let to = (first..bytes.len()).find(|i| !part(*i)).unwrap_or(bytes.len());
    let number = text.get(from..to)?.replace(' ', "");
    let whole = number.replace(',', "");
    let candidates = match (number.matches(',').count(), number.rfind('.'), number.rfind(',')) {
        (_, Some(point), Some(comma)) if point < comma => {
            vec![number.replace('.', "").replace(',', ".")]
        }
        (1, None, Some(comma)) => {
            let decimal = number.replace(',', ".");
            let groups = number.len() - comma == 4 && comma <= 3 && !number.starts_with('0');
            if groups { vec![whole, decimal] } else { vec![decimal] }
        }
        _ => vec![whole],
    };
    let (before, after) = (text.get(..from)?, text.get(to..)?);
    let meant: Vec<_> = candidates
        .iter()
        .filter(|number| parse_number(number).is_some())
        .map(|number| format!("\"{before}{number}{after}\""))
        .collect();
    (!meant.is_empty()).then(|| meant.join(" or "))
}

fn not_a_number(text: &str, kind: Kind) -> ParseError {
    let unit = kind.usual().symbol();
    let example = format!("12 {unit}").trim_end().to_owned();
    ParseError::NotANumber { text: text.to_owned(), kind, example }
}

fn allowed(kind: Kind) -> String {
    let list: Vec<_> = kind.units().map(Unit::symbol).filter(|s| !s.is_empty()).collect();
    if list.is_empty() { "none".to_owned() } else { list.join(", ") }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn si(text: &str, kind: Kind) -> f64 {
        parse(text, kind).unwrap().0
    }

    #[test]
    fn units_of_the_trade_convert_to_si() {
        assert_eq!(si("12 m", Kind::Length), 12.0);
        assert_eq!(si("40ft", Kind::Length), 40.0 * 0.3048);
        assert_eq!(si("12 in", Kind::Length), 12.0 * 0.0254);
        approx::assert_relative_eq!(si("5 ft 6 in", Kind::Length), 1.6764);
        approx::assert_relative_eq!(si("9 deg", Kind::Angle), 9f64.to_radians());
        approx::assert_relative_eq!(si("16 %", Kind::Angle), 0.16f64.atan());
        approx::assert_relative_eq!(si("1 bar", Kind::Pressure), 1e5);
        approx::assert_relative_eq!(si("1 psi", Kind::Pressure), 6894.757, max_relative = 1e-7);
        approx::assert_relative_eq!(si("9 ppg", Kind::Density), 1078.44, max_relative = 1e-5);
        assert_eq!(si("0.3", Kind::Ratio), 0.3);
        approx::assert_relative_eq!(si("30 %", Kind::Ratio), 0.3);
    }

    #[test]
    fn a_unit_of_another_kind_is_refused_with_the_allowed_ones() {
        let message = parse("12 kN", Kind::Length).unwrap_err().to_string();
        assert!(message.contains("\"kN\" is not a unit of a length"), "{message}");
        assert!(message.contains("m, mm, cm, km, ft, in"), "{message}");
    }

    #[test]
    fn separators_between_digits_are_named_with_what_may_be_meant() {
        for (text, kind, meant) in [
            ("600,5 ft", Kind::Length, "\"600.5 ft\""),
            ("-0,250 m", Kind::Length, "\"-0.250 m\""),
            ("95,000 lbf", Kind::Force, "\"95000 lbf\" or \"95.000 lbf\""),
            ("1,234,567 N", Kind::Force, "\"1234567 N\""),
            ("1,234.5 kN", Kind::Force, "\"1234.5 kN\""),
            ("1.234,5 kN", Kind::Force, "\"1234.5 kN\""),
            ("12 500 N", Kind::Force, "\"12500 N\""),
            ("12 ft 6,5 in", Kind::Length, "\"12 ft 6.5 in\""),
            ("0,3", Kind::Ratio, "\"0.3\""),
        ] {
            match parse(text, kind) {
                Err(ParseError::Separator { text: found, suggestion }) => {
                    assert_eq!((found.as_str(), suggestion.as_str()), (text, meant));
                }
                other => panic!("{text}: {other:?}"),
            }
        }
        let message = parse("600,5 ft", Kind::Length).unwrap_err().to_string();
        assert!(message.contains("decimal point and no thousands separator"), "{message}");
        for text in ["12 ft, 6 in", "3 4 m", "3 m, 4", "1,2,3 m"] {
            let separator = matches!(parse(text, Kind::Length), Err(ParseError::Separator { .. }));
            assert_eq!(separator, text == "1,2,3 m", "{text}");
        }
    }

    #[test]
    fn words_infinities_and_overflow_are_refused() {
        for text in ["", "m", "NaN", "inf m", "--3 m", "1e999 m", "1e308 km", "3 4 m", ". m"] {
            assert!(parse(text, Kind::Length).is_err(), "{text:?} was accepted");
        }
    }

    #[test]
    fn symbols_are_unique_within_a_kind() {
        for (i, a) in crate::unit::ALL.iter().enumerate() {
            for b in &crate::unit::ALL[i + 1..] {
                assert!(a.kind() != b.kind() || a.symbol() != b.symbol(), "{} twice", a.symbol());
            }
        }
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_refused_without_panic(text in "\\PC{0,24}") {
            for unit in crate::unit::ALL {
                let _ = parse(&text, unit.kind());
            }
        }

        #[test]
        fn writing_and_reading_a_value_gives_it_back(value in -1e6f64..1e6, index in 0..crate::unit::ALL.len()) {
            let unit = crate::unit::ALL[index];
            let value = if unit == crate::unit::PERCENT_GRADE { value / 1e4 } else { value };
            let (si, read) = parse(&format!("{value} {}", unit.symbol()), unit.kind()).unwrap();
            prop_assert_eq!(read, unit);
            prop_assert!((unit.from_si(si) - value).abs() <= 1e-9 * value.abs().max(1.0));
        }
    }
}
