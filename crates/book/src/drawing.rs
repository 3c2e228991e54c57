//! Drawings as PDF: every sheet a page of its own size.

use serde_json::{Value, json};
use sheets::Issue;
use sheets::scene::Drawing;

use crate::BookError;
use crate::letters::Letters;
use crate::typesetter::Work;

/// See [`crate::drawing_pdf`].
pub(crate) fn pdf(drawings: &[Drawing], title: &str, issue: &Issue) -> Result<Vec<u8>, BookError> {
    let mut work = Work::new(include_str!("drawings.typ"))?;
    let letters = Letters::default();
    let mut pages: Vec<Value> = Vec::new();
    for (d, drawing) in drawings.iter().enumerate() {
        for (s, sheet) in drawing.sheets.iter().enumerate() {
            let name = format!("sheet-{d}-{s}.svg");
            work.put(name.clone(), crate::picture::of(sheet));
            pages.push(json!({
                "file": name,
                "width": sheet.width,
                "height": sheet.height,
                "title": letters.line(&sheet.title),
                "description": letters.line(&sheet.description),
            }));
        }
    }
    if pages.is_empty() {
        return Err(BookError::Preparing("no sheet was handed in".to_owned()));
    }
    let data = json!({
        "title": letters.line(title),
        "authors": issue.author.as_ref().map(|text| vec![letters.line(text)]).unwrap_or_default(),
        "day": issue.date.map(|date| { let (y, m, d) = date.parts(); [y, m.into(), d.into()] }),
        "pages": pages,
    });
    work.put_data(&data)?;
    work.pdf("underhaul drawings", issue.date)
}
