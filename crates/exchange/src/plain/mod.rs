//! The table of `docs/ground-data.md`: one file, one header, and a column that says what each row is.

use crate::fields::{Row, Rows};
use crate::issue::{Issues, Located, brief, nearest};
use crate::records::{Names, Records};
use crate::table::{Cells, Column, Table};

use self::rows::{Kind, take};

mod rows;

/// How the table names what messages speak of.
pub(crate) const NAMES: Names = Names {
    boring: "boring",
    list: "the rows \"boring\"",
    easting: "easting",
    northing: "northing",
    chainage: "chainage",
    offset: "offset",
    ground_level: "level",
    final_depth: "depth",
    top: "top",
    base: "base",
    codes: "soil, legend, or a word in capitals in description",
    cone_resistance: "qc",
};

/// Columns of the table.
const COLUMNS: [&str; 20] = [
    "row",
    "boring",
    "easting",
    "northing",
    "chainage",
    "offset",
    "level",
    "depth",
    "top",
    "base",
    "soil",
    "legend",
    "description",
    "n",
    "energy",
    "n60",
    "qc",
    "fs",
    "u2",
    "remark",
];

const SEPARATORS: [char; 3] = [';', '\t', ','];

/// Reads the table; nothing where its header is at fault, so that no row was looked at.
pub(crate) fn read(name: &str, text: &str, issues: &mut Issues) -> Option<Records> {
    let mut records = Records::default();
    let separator = separator(text);
    let mut rows = Rows::across_lines(text, separator).filter(|row| !is_remark(row));
    let header = rows.next()?;
    let mut table = table(name, &header, separator, issues)?;
    let mut asked = Vec::new();
    for row in rows {
        if !row.pairs(issues) {
            continue;
        }
        let Some(kind) = kind_of(&table, &row, issues) else { continue };
        records.boring_rows += usize::from(kind == Kind::Boring);
        let usable = match asked.iter().find(|(known, _)| *known == kind) {
            Some((_, usable)) => *usable,
            None => {
                let usable = table.has(kind.needed(), header.line, issues);
                asked.push((kind, usable));
                usable
            }
        };
        if usable && belongs(&table, kind, &row, issues) {
            take(kind, &mut Cells { table: &mut table, row: &row, issues }, &mut records);
        }
    }
    Some(records)
}

/// Whether a text begins with a header of the table: whether any of its columns is known.
pub(crate) fn is_table(text: &str) -> bool {
    let separator = separator(text);
    let header = Rows::across_lines(text, separator).find(|row| !is_remark(row));
    header.is_some_and(|row| {
        row.fields.iter().any(|field| {
            let (name, _) = name_and_unit(&field.text);
            COLUMNS.contains(&name.as_str())
        })
    })
}

fn is_remark(row: &Row<'_>) -> bool {
    row.is_blank() || row.text(0).starts_with('#')
}

/// The separator that the header uses most; a comma where it uses none.
fn separator(text: &str) -> char {
    // A spreadsheet may have put a remark between quotation marks.
    let is_remark = |line: &str| line.starts_with('#') || line.starts_with("\"#");
    let mut lines = text.split(['\r', '\n']).map(str::trim_start);
    let header = lines.find(|line| !line.is_empty() && !is_remark(line)).unwrap_or("");
    // Of equal counts the last is taken.
    SEPARATORS.into_iter().max_by_key(|s| header.matches(*s).count()).unwrap_or(',')
}

/// The columns; nothing where rows could not be told apart.
fn table(name: &str, header: &Row<'_>, separator: char, issues: &mut Issues) -> Option<Table> {
    if !header.pairs(issues) {
        return None;
    }
    let mut columns: Vec<Column> = Vec::new();
    for at in 0..header.fields.len() {
        let place = header.place(at);
        let (column, unit) = name_and_unit(header.text(at));
        if column.is_empty() {
            // A column without a name may stay empty; spreadsheets leave such.
        } else if columns.iter().any(|known| known.name == column) {
            issues
                .error("duplicate_column", place, format!("the table has two columns {column}"))
                .found(&column)
                .allowed("each column once")
                .hint("rename or remove one of them, with its values");
        } else if !COLUMNS.contains(&column.as_str()) {
            let issue = issues.error(
                "unknown_column",
                place,
                format!("the table knows no column \"{}\"", brief(&column)),
            );
            issue.found(&column).allowed(COLUMNS.join(", "));
            match nearest(&column, COLUMNS) {
                Some(near) => issue.hint(format!("did you mean {near}?")),
                None => issue.hint("remove the column, or name it remark"),
            };
        }
        let unit = Some(Located { value: unit, place });
        columns.push(Column { name: column, place, unit, told: false });
    }
    let table = Table {
        what: format!("the table {name}"),
        columns,
        units_stand: "the header, as \"depth [m]\"",
        decimal_comma: separator != ',',
        usual_units: false,
    };
    table.has(&["row", "boring"], header.line, issues).then_some(table)
}

/// `depth` and `m` of `Depth [m]` or `Depth (m)`.
fn name_and_unit(text: &str) -> (String, String) {
    let text = text.trim();
    let unit = [('[', ']'), ('(', ')')].into_iter().find_map(|(open, close)| {
        let (name, unit) = text.strip_suffix(close)?.split_once(open)?;
        Some((name.trim().to_lowercase(), unit.trim().to_owned()))
    });
    unit.unwrap_or_else(|| (text.to_lowercase(), String::new()))
}

fn kind_of(table: &Table, row: &Row<'_>, issues: &mut Issues) -> Option<Kind> {
    let at = table.position("row")?;
    let word = row.text(at);
    let kind = Kind::find(word);
    if kind.is_none() {
        let words = || Kind::ALL.iter().map(|(word, _)| *word);
        let issue = issues.error(
            "unknown_row",
            row.place(at),
            format!("\"{}\" is no kind of row", brief(word)),
        );
        issue.found(word).allowed(words().collect::<Vec<_>>().join(", "));
        match nearest(word, words()) {
            Some(near) => issue.hint(format!("did you mean \"{near}\"?")),
            None => issue.hint("write in the column row what the row is; begin a remark with #"),
        };
    }
    kind
}

/// Notes values of a row that its kind does not have; whether there are none. A row may be shorter than the header:
/// what is missing is empty.
fn belongs(table: &Table, kind: Kind, row: &Row<'_>, issues: &mut Issues) -> bool {
    let mut all = true;
    for at in 0..row.fields.len() {
        let text = row.text(at);
        if text.is_empty() {
            continue;
        }
        let column = table.columns.get(at).map_or("", |column| column.name.as_str());
        // A column that the table does not know is an error of the header.
        let known = COLUMNS.contains(&column);
        if column.is_empty() {
            all = false;
            issues
                .error("field_count", row.place(at), "a value stands under no heading")
                .found(text)
                .allowed(format!("{} values", table.columns.len()))
                .hint("put a value that holds the separator between quotation marks");
        } else if known && !kind.has(column) {
            all = false;
            let word = kind.word();
            issues
                .error("unused_value", row.place(at), format!("a row \"{word}\" has no {column}"))
                .found(text)
                .allowed(kind.columns().join(", "))
                .hint("empty the cell, or correct the kind of the row");
        }
    }
    all
}
