use crate::data::data;
use crate::{Nominal, PipeError, Standard};

/// Sizes of a standard, rising; none for a user's own data.
///
/// # Errors
/// Only if an embedded table cannot be read.
pub fn sizes(standard: Standard) -> Result<Vec<Nominal>, PipeError> {
    let d = data()?;
    Ok(match standard {
        Standard::En545 => d.sizes.iter().map(|s| Nominal::Dn(s.dn)).collect(),
        Standard::AwwaC151 => {
            let mut list: Vec<_> = d.awwa.iter().map(|r| r.size).collect();
            list.dedup();
            list.into_iter().map(Nominal::Inches).collect()
        }
        Standard::Own => Vec::new(),
    })
}

/// Classes of a size, as a user would write them; empty for a size that the standard does not have.
///
/// For EN 545 the usual K classes and all pressure classes; [`crate::en545_pipe`] takes any K from
/// 5 to 20.
///
/// # Errors
/// Only if an embedded table cannot be read.
pub fn classes_for(standard: Standard, size: u32) -> Result<Vec<String>, PipeError> {
    let d = data()?;
    Ok(match standard {
        Standard::En545 if d.sizes.iter().any(|s| s.dn == size) => {
            let k = (7..=12).map(|k| format!("K{k}"));
            k.chain(crate::en545::PRESSURE_CLASSES.iter().map(|c| format!("C{c}"))).collect()
        }
        Standard::AwwaC151 => d
            .awwa
            .iter()
            .filter(|r| r.size == size)
            .map(|r| format!("{} psi", r.class_psi))
            .collect(),
        _ => Vec::new(),
    })
}

/// Words joined for a message.
pub(crate) fn listed<T: ToString>(items: impl IntoIterator<Item = T>) -> String {
    items.into_iter().map(|i| i.to_string()).collect::<Vec<_>>().join(", ")
}
