//! The reported result of a standard penetration test, as logs write it.

/// What a text says of a test.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct SptResult {
    /// Blows for 300 mm, or blows of the drive that was stopped.
    pub(crate) blows: Option<f64>,
    /// Whether the ground refused the full drive.
    pub(crate) refusal: bool,
}

/// Penetration of the main drive, mm.
///
/// From memory: EN ISO 22476-3. The increments of the AGS 4.1.1 dictionary (four of 75 mm) agree.
const MAIN_DRIVE: f64 = 300.0;

/// Blows at which a drive is stopped.
///
/// Common practice: 50 blows of the main drive; fewer without a unit behind them may be two increments, `5/12`.
const STOPPED_AT: f64 = 50.0;

/// Reads `N=35`, `6,8/8,9,9,9 N=35`, `50/75 mm`, `50 for 75mm`, `25 (25 for 100mm/50 for 190mm)`, `>50`, `refusal`,
/// `R`; nothing where the text says none of it.
///
/// Blows for a penetration below 300 mm are a refusal; the last such pair of the text counts, for the seating drive
/// stands before the main drive.
pub(crate) fn read_result(text: &str) -> Option<SptResult> {
    let text = text.trim().to_lowercase();
    if text == "r" || text.contains("refus") {
        let blows = pair(&text).map(|pair| pair.blows);
        return Some(SptResult { blows, refusal: true });
    }
    if let Some(pair) = pair(&text) {
        return Some(SptResult { blows: Some(pair.blows), refusal: pair.penetration < MAIN_DRIVE });
    }
    if let Some(blows) = text.strip_prefix('>').and_then(whole_number) {
        return Some(SptResult { blows: Some(blows), refusal: true });
    }
    after_n(&text)
}

struct Pair {
    blows: f64,
    penetration: f64,
}

/// The last `blows/penetration` or `blows for penetration`.
fn pair(text: &str) -> Option<Pair> {
    let by_word = text.rmatch_indices("for").find_map(|(at, word)| {
        let (before, after) = (text.get(..at)?, text.get(at + word.len()..)?);
        let before = before.trim_end().trim_end_matches("blows");
        let (penetration, _) = leading(after)?;
        Some(Pair { blows: trailing(before)?.0, penetration })
    });
    by_word.or_else(|| {
        let (at, slash) = text.rmatch_indices('/').next()?;
        let (before, after) = (text.get(..at)?, text.get(at + slash.len()..)?);
        let (blows, start) = trailing(before)?;
        let (penetration, rest) = leading(after)?;
        // A list of increments is no pair: `1,2/3,4,4,5`.
        let alone = start.is_empty() || start.ends_with(['=', '(', ' ', '>']);
        let says_unit = rest.trim_start().starts_with("mm");
        let ends = rest.trim().is_empty() || says_unit;
        (alone && ends && (says_unit || blows >= STOPPED_AT)).then_some(Pair { blows, penetration })
    })
}

/// `N=35`, `N = 35`, `N>50`; also where increments stand before it.
fn after_n(text: &str) -> Option<SptResult> {
    let (at, _) = text.rmatch_indices('n').next()?;
    let after = text.get(at + 1..)?.trim_start();
    let refusal = after.starts_with('>');
    let (blows, rest) = leading(after.strip_prefix(['=', '>'])?)?;
    let ends = rest.trim_start().chars().next().is_none_or(|c| matches!(c, '(' | ')' | ';'));
    ends.then_some(SptResult { blows: Some(blows), refusal })
}

fn whole_number(text: &str) -> Option<f64> {
    leading(text).filter(|(_, rest)| rest.trim().is_empty()).map(|(number, _)| number)
}

/// The digits at the start of a text as a number, and what follows.
fn leading(text: &str) -> Option<(f64, &str)> {
    let text = text.trim_start();
    let length = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let (digits, rest) = text.split_at_checked(length)?;
    number(digits).map(|number| (number, rest))
}

/// The digits at the end of a text as a number, and what stands before.
fn trailing(text: &str) -> Option<(f64, &str)> {
    let text = text.trim_end();
    let (start, digits) =
        text.split_at_checked(text.trim_end_matches(|c: char| c.is_ascii_digit()).len())?;
    number(digits).map(|number| (number, start))
}

/// Up to four digits, so that no sum of text becomes a number of blows or millimetres.
fn number(digits: &str) -> Option<f64> {
    (1..=4).contains(&digits.len()).then(|| digits.parse().ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forms_of_the_trade_are_read() {
        let full = |blows| Some(SptResult { blows: Some(blows), refusal: false });
        let refused = |blows| Some(SptResult { blows, refusal: true });
        for (text, result) in [
            ("N=35", full(35.0)),
            ("n = 4", full(4.0)),
            ("6,8/8,9,9,9 N=35", full(35.0)),
            ("N=12 (1,2/3,3,3,3)", full(12.0)),
            ("35/300 mm", full(35.0)),
            ("50/75 mm", refused(Some(50.0))),
            ("50/75mm", refused(Some(50.0))),
            ("50/75", refused(Some(50.0))),
            ("N=50/75", refused(Some(50.0))),
            ("50 for 75mm", refused(Some(50.0))),
            ("50 blows for 75 mm", refused(Some(50.0))),
            ("25 (25 for 100mm/50 for 190mm)", refused(Some(50.0))),
            (">50", refused(Some(50.0))),
            ("N>50", refused(Some(50.0))),
            ("R", refused(None)),
            ("Refusal", refused(None)),
            ("refusal 50/20 mm", refused(Some(50.0))),
        ] {
            assert_eq!(read_result(text), result, "{text}");
        }
    }

    #[test]
    fn other_texts_say_nothing() {
        for text in [
            "",
            "Y",
            "1,2/3,4,4,5",
            "5/12",
            "1,50/75",
            "none",
            "N=",
            "N=1,2",
            "for",
            "/",
            "99999/1",
            "ß/ø",
        ] {
            assert_eq!(read_result(text), None, "{text}");
        }
    }

    proptest::proptest! {
        #[test]
        fn no_text_panics_and_blows_are_finite(text in "[0-9nN=/>()rforms, ßø]{0,24}") {
            if let Some(SptResult { blows: Some(blows), .. }) = read_result(&text) {
                proptest::prop_assert!((0.0..=9999.0).contains(&blows));
            }
        }
    }
}
