//! What stands in the book, as data for its template.

use assess::{Reading, SettingOut};
use project::Design;
use serde_json::{Value, json};
use sheets::Subject;
use sheets::scene::Drawing;

use crate::BookError;
use crate::curves;
use crate::letters::{Letters, printed};
use crate::references::References;
use crate::typesetter::Work;

mod checks;
mod setting_out;
mod tables;
mod workings;

/// Longest text of a row that is kept on one page, bytes.
const SHORT: usize = 800;

/// What every part of the book needs.
pub(crate) struct Writer<'a> {
    pub(crate) subject: &'a Subject<'a>,
    pub(crate) letters: Letters,
    pub(crate) references: References,
}

impl Writer<'_> {
    /// A place along the line.
    pub(crate) fn place(&self, at: f64) -> String {
        self.value(Reading::new(at, quantity::unit::M))
    }

    /// A value in the units of the reader.
    pub(crate) fn value(&self, reading: Reading) -> String {
        printed(&reading.shown(self.subject.system))
    }

    /// How places are counted, for a column.
    pub(crate) fn place_word(&self) -> &'static str {
        if self.subject.assessment.technique == "bursting" { "at chainage" } else { "at md" }
    }
}

/// The book as PDF.
pub(crate) fn book(
    subject: &Subject<'_>,
    drawings: &[Drawing],
    setting_out: &SettingOut,
) -> Result<Vec<u8>, BookError> {
    let mut work = Work::new(include_str!("../book.typ"))?;
    let w = Writer { subject, letters: Letters::default(), references: References::default() };
    let a = &subject.assessment;
    let mut data = json!({
        "head": head(&w),
        "verdict": checks::verdict(&w),
        "tightest": checks::tightest(&w),
        "checks": checks::all(&w),
        "place_word": w.place_word(),
        "facts": facts(&w),
        "drawings": embedded(&w, drawings, &mut work),
        "tables_title": tables::title(&w),
        "tables": tables::all(&w),
        "changes": tables::changes(&w),
        "curves": plots(&w, &mut work),
        "workings": workings::all(&w),
        "setting_out": setting_out::table(&w, setting_out),
        "assumptions": assumptions(&w),
        "warnings": a.warnings.iter().map(|text| w.letters.line(text)).collect::<Vec<_>>(),
    });
    // Only now are all sources cited and all characters seen.
    if let Some(object) = data.as_object_mut() {
        object.insert("references".to_owned(), w.references.listed(&w.letters));
        object.insert("missing".to_owned(), json!(w.letters.missing()));
    }
    work.put_data(&data)?;
    work.pdf("underhaul calculation book", subject.issue.date)
}

/// Title block, cautions and what repeats on every page.
fn head(w: &Writer<'_>) -> Value {
    let (subject, l) = (w.subject, &w.letters);
    let (a, issue) = (&subject.assessment, &subject.issue);
    let words = |text: &Option<String>| text.as_ref().map_or_else(|| "–".to_owned(), |t| l.line(t));
    let technique = match subject.design {
        Design::Crossing(_) => "directional drilling",
        Design::Renewal(_) => "pipe bursting",
    };
    json!({
        "name": l.line(&a.crossing.name),
        "short_name": l.shortened(&a.crossing.name, 70),
        "note": a.crossing.note.as_ref().map(|note| l.lines(note)),
        "technique": technique,
        "file": l.line(&subject.file),
        "short_file": l.shortened(&subject.file, 50),
        "date": issue.date.map_or_else(|| "–".to_owned(), |date| date.to_string()),
        "day": issue.date.map(|date| { let (y, m, d) = date.parts(); [y, m.into(), d.into()] }),
        "revision": words(&issue.revision),
        "short_revision": issue.revision.as_ref().map(|text| l.shortened(text, 20)),
        "author": words(&issue.author),
        "authors": issue.author.as_ref().map(|text| vec![l.shortened(text, 200)]).unwrap_or_default(),
        "program": format!("underhaul {}", a.version),
        "cautions": a.cautions.iter().map(|text| l.line(text)).collect::<Vec<_>>(),
    })
}

/// The design in figures and words.
fn facts(w: &Writer<'_>) -> Value {
    let summary = &w.subject.assessment.crossing;
    let words = summary
        .facts
        .iter()
        .map(|(what, text)| json!([w.letters.line(what), w.letters.line(text)]));
    let figures = summary
        .figures
        .iter()
        .map(|(what, reading)| json!([w.letters.line(what), w.value(*reading)]));
    words.chain(figures).collect()
}

/// Every sheet of the drawings as a picture.
fn embedded(w: &Writer<'_>, drawings: &[Drawing], work: &mut Work) -> Value {
    let mut list = Vec::new();
    for (d, drawing) in drawings.iter().enumerate() {
        for (s, sheet) in drawing.sheets.iter().enumerate() {
            let name = format!("drawing-{d}-{s}.svg");
            work.put(name.clone(), crate::picture::of(sheet));
            list.push(json!({
                "title": w.letters.line(&sheet.title),
                "first": s == 0,
                "drawing": w.letters.line(&drawing.title),
                "description": w.letters.line(&sheet.description),
                "file": name,
            }));
        }
    }
    Value::Array(list)
}

fn plots(w: &Writer<'_>, work: &mut Work) -> Value {
    let mut list = Vec::new();
    for (k, shown) in curves::all(w.subject, &w.letters).into_iter().enumerate() {
        let name = format!("curve-{k}.svg");
        work.put(name.clone(), shown.svg.into_bytes());
        list.push(json!({ "title": shown.title, "description": shown.description, "file": name }));
    }
    Value::Array(list)
}

fn assumptions(w: &Writer<'_>) -> Value {
    w.subject
        .assessment
        .assumptions
        .iter()
        .map(|a| {
            json!({
                "path": w.letters.id(&a.path),
                "value": w.letters.line(&a.value),
                "meaning": w.letters.line(&a.meaning),
                "source": w.references.cite(&a.source),
            })
        })
        .collect()
}
