use quantity::Pressure;
use working::Evidence;

use crate::{PipeError, Valued, en545_pipe, preferred_class};

/// Pressure of the leak test in the foundry, 10 s.
///
/// | class | DN 80–300 | 350–600 | 700–1000 | 1100–2000 |
/// |---|---|---|---|---|
/// | K below 9, bar | 0.5 (K + 1)² | 0.5 K² | 0.5 (K − 1)² | 0.5 (K − 2)² |
/// | K 9 and above, bar | 50 | 40 | 32 | 25 |
/// | preferred class, bar | 40 | 30 | 25 | 25 |
///
/// `None` for the other pressure classes: no value was read. The site test goes by PEA, not by this.
///
/// # Source
/// A foundry's data page, read.
/// # Errors
/// [`PipeError::UnknownSize`] and [`PipeError::UnknownClass`] list what there is.
/// # Checked by
/// `cases/pipe/factory-test.toml` (published).
pub fn factory_test_pressure(dn: u32, class: &str) -> Result<Option<Valued<Pressure>>, PipeError> {
    let pipe = en545_pipe(dn, class)?;
    let (less, thick, preferred) = match dn {
        0..=300 => (1.0, 50.0, 40.0),
        301..=600 => (0.0, 40.0, 30.0),
        601..=1000 => (-1.0, 32.0, 25.0),
        _ => (-2.0, 25.0, 25.0),
    };
    let k = pipe.class().strip_prefix('K').and_then(|number| number.parse::<f64>().ok());
    let bar = match k {
        Some(k) if k < 9.0 => Some(0.5 * (k + less).powi(2)),
        Some(_) => Some(thick),
        None => (pipe.class() == preferred_class(dn)?).then_some(preferred),
    };
    let text = "leak test in the foundry, a foundry's data page";
    Ok(bar.map(|bar| Valued::from_text(Pressure::bar(bar), text, Evidence::Published)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn classes_that_nobody_published_have_no_test_pressure() {
        assert_eq!(factory_test_pressure(300, "C50"), Ok(None));
        assert!(factory_test_pressure(300, "C40").expect("valid").is_some());
        assert!(factory_test_pressure(300, "Z9").is_err());
    }
}
