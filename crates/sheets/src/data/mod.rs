//! Data files of a design for other programs: tables, the assessment, the line on a map, the alignment.
//!
//! All numbers are in the units that a file names, metric ones, whatever the reader's documents are in. A file that cannot
//! be made is not made empty: it is [`Omitted`] with the reason.

use crate::{NamedFile, Subject};

mod alignment;
mod geo;
mod grid;
mod land_xml;
mod plan;
mod profiles;
mod setting_out;
mod table;

/// A file that was not made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Omitted {
    /// Its name.
    pub name: String,
    /// Why.
    pub reason: String,
}

/// All data files of a design, and those that cannot be made.
#[must_use]
pub fn files(subject: &Subject<'_>) -> (Vec<NamedFile>, Vec<Omitted>) {
    subject.for_reader(|subject| {
        let named = |name: &str, media_type, title: &str, bytes: Result<Vec<u8>, String>| {
            let name = name.to_owned();
            match bytes {
                Ok(bytes) => Ok(NamedFile { name, media_type, title: title.to_owned(), bytes }),
                Err(reason) => Err(Omitted { name, reason }),
            }
        };
        let table = assess::setting_out(subject.design);
        let (mut made, mut omitted) = (Vec::new(), Vec::new());
        for file in [
            named(
                "setting-out.csv",
                CSV,
                "table that the line is set out by",
                setting_out::csv(&table),
            ),
            named(
                "profiles.csv",
                CSV,
                "points of the curves along the line, SI units",
                profiles::points(subject),
            ),
            named(
                "profiles-list.csv",
                CSV,
                "what each curve shows, its unit and number of points",
                profiles::list(subject),
            ),
            named("assessment.json", JSON, "the whole assessment, SI units", assessment(subject)),
            named("line.geojson", GEO, "the line on a map, for display only", geo::json(subject)),
            named("alignment.xml", XML, "alignment in LandXML 1.2, metres", land_xml::xml(subject)),
        ] {
            match file {
                Ok(file) => made.push(file),
                Err(gap) => omitted.push(gap),
            }
        }
        (made, omitted)
    })
}

const CSV: &str = "text/csv; charset=utf-8; header=present";
const JSON: &str = "application/json";
const GEO: &str = "application/geo+json";
const XML: &str = "application/xml";

/// The assessment as `underhaul check --json` prints it, with its format number: the same object, no wrapper, so that one
/// reader serves both. Values are SI, whatever the units of the documents.
fn assessment(subject: &Subject<'_>) -> Result<Vec<u8>, String> {
    let mut bytes = serde_json::to_vec_pretty(&subject.assessment).map_err(|e| e.to_string())?;
    bytes.push(b'\n');
    Ok(bytes)
}
