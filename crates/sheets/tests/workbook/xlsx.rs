//! Reads what tests need of a workbook: cells with values and formulas, by sheet.

use std::collections::BTreeMap;
use std::io::{Cursor, Read, Write};

use quick_xml::Reader;
use quick_xml::events::Event;

/// A cell.
#[derive(Debug, Clone, Default)]
pub struct Cell {
    /// Its value as text.
    pub value: Option<String>,
    /// Its formula.
    pub formula: Option<String>,
    /// Type: `s`, `str`, `e`, `n`.
    pub kind: String,
}

impl Cell {
    pub fn number(&self) -> Option<f64> {
        matches!(self.kind.as_str(), "n" | "")
            .then(|| self.value.as_deref()?.parse().ok())
            .flatten()
    }
}

/// Cells of a sheet by name, as `C12`.
pub type Sheet = BTreeMap<String, Cell>;

/// Sheets by name, in order.
pub type Book = Vec<(String, Sheet)>;

/// Parts of a file by name.
pub fn parts(bytes: &[u8]) -> BTreeMap<String, Vec<u8>> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    (0..archive.len())
        .map(|i| {
            let mut file = archive.by_index(i).unwrap();
            let mut content = Vec::new();
            file.read_to_end(&mut content).unwrap();
            (file.name().unwrap().into_owned(), content)
        })
        .collect()
}

/// The same workbook without stored results of formulas, and how many were taken away.
pub fn without_results(bytes: &[u8]) -> (Vec<u8>, usize) {
    let mut out = zip::ZipWriter::new(Cursor::new(Vec::new()));
    let mut taken = 0;
    for (name, content) in parts(bytes) {
        out.start_file(name.as_str(), zip::write::SimpleFileOptions::default()).unwrap();
        if !name.starts_with("xl/worksheets/sheet") {
            out.write_all(&content).unwrap();
            continue;
        }
        let text = String::from_utf8(content).unwrap();
        let mut pieces = text.split("</f><v>");
        out.write_all(pieces.next().unwrap().as_bytes()).unwrap();
        for piece in pieces {
            let (_, rest) = piece.split_once("</v>").expect("a stored result ends");
            taken += 1;
            out.write_all(b"</f>").unwrap();
            out.write_all(rest.as_bytes()).unwrap();
        }
    }
    (out.finish().unwrap().into_inner(), taken)
}

/// The same workbook with another number in a cell of one of its parts.
pub fn with_number(bytes: &[u8], part: &str, cell: &str, number: f64) -> Vec<u8> {
    let mut out = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for (name, content) in parts(bytes) {
        out.start_file(name.as_str(), zip::write::SimpleFileOptions::default()).unwrap();
        if name != part {
            out.write_all(&content).unwrap();
            continue;
        }
        let text = String::from_utf8(content).unwrap();
        let at = text.find(&format!("<c r=\"{cell}\"")).expect("the cell");
        let from = at + text[at..].find("<v>").expect("its value") + 3;
        let to = from + text[from..].find("</v>").expect("its end");
        out.write_all(format!("{}{number}{}", &text[..from], &text[to..]).as_bytes()).unwrap();
    }
    out.finish().unwrap().into_inner()
}

/// Reads all sheets.
pub fn read(bytes: &[u8]) -> Book {
    let parts = parts(bytes);
    let text = |name: &str| String::from_utf8(parts[name].clone()).unwrap();
    let strings = if parts.contains_key("xl/sharedStrings.xml") {
        strings(&text("xl/sharedStrings.xml"))
    } else {
        Vec::new()
    };
    names(&text("xl/workbook.xml"))
        .into_iter()
        .enumerate()
        .map(|(i, name)| {
            let sheet = sheet(&text(&format!("xl/worksheets/sheet{}.xml", i + 1)), &strings);
            (name, sheet)
        })
        .collect()
}

fn attribute(start: &quick_xml::events::BytesStart<'_>, key: &str) -> Option<String> {
    start
        .attributes()
        .map(Result::unwrap)
        .find(|a| a.key.as_ref() == key)
        .map(|a| quick_xml::escape::unescape(&a.value).unwrap().into_owned())
}

fn names(xml: &str) -> Vec<String> {
    let mut reader = Reader::from_str(xml);
    let mut names = Vec::new();
    loop {
        match reader.read_event().unwrap() {
            Event::Empty(e) | Event::Start(e) if e.name().as_ref() == "sheet" => {
                names.push(attribute(&e, "name").unwrap());
            }
            Event::Eof => return names,
            _ => {}
        }
    }
}

fn strings(xml: &str) -> Vec<String> {
    let mut reader = Reader::from_str(xml);
    let (mut list, mut now) = (Vec::new(), String::new());
    loop {
        match reader.read_event().unwrap() {
            Event::Start(e) if e.name().as_ref() == "si" => now.clear(),
            Event::End(e) if e.name().as_ref() == "si" =>
            // The format writes what looks like one of its own escapes with one more.
            {
                list.push(now.replace("_x005F_", "_"))
            }
            Event::Eof => return list,
            event => append(&mut now, &event),
        }
    }
}

fn append(text: &mut String, event: &Event<'_>) {
    match event {
        Event::Text(t) => text.push_str(t),
        Event::GeneralRef(r) => {
            let name = format!("&{};", &**r);
            text.push_str(&quick_xml::escape::unescape(&name).unwrap());
        }
        _ => {}
    }
}

fn sheet(xml: &str, strings: &[String]) -> Sheet {
    let mut reader = Reader::from_str(xml);
    let mut sheet = Sheet::new();
    let (mut at, mut cell, mut text) = (String::new(), Cell::default(), String::new());
    loop {
        match reader.read_event().unwrap() {
            Event::Start(e) => match e.name().as_ref() {
                "c" => {
                    at = attribute(&e, "r").unwrap();
                    cell = Cell { kind: attribute(&e, "t").unwrap_or_default(), ..Cell::default() };
                }
                "f" | "v" => text.clear(),
                _ => {}
            },
            Event::End(e) => match e.name().as_ref() {
                "f" => cell.formula = Some(text.clone()),
                "v" if cell.kind == "s" => {
                    cell.value = Some(strings[text.parse::<usize>().unwrap()].clone());
                }
                "v" => cell.value = Some(text.clone()),
                "c" => {
                    sheet.insert(at.clone(), std::mem::take(&mut cell));
                }
                _ => {}
            },
            Event::Eof => return sheet,
            event => append(&mut text, &event),
        }
    }
}
