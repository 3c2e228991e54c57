use std::collections::BTreeMap;

use crate::fields::{Fault, Row};
use crate::issue::{Issues, Located, Place, nearest};
use crate::table::{Cells, Column, Table};

use super::rows::data_row;
use super::water::{Rise, standing};
use super::{Ags, Group};

const ROW_NAMES: [&str; 5] = ["GROUP", "HEADING", "UNIT", "TYPE", "DATA"];

/// Follows the groups of a file, row by row.
#[derive(Debug)]
pub(super) struct Groups<'i> {
    issues: &'i mut Issues,
    ags: Ags,
    rises: Vec<Rise>,
    current: Option<Current>,
    /// Lines in which groups began.
    seen: BTreeMap<String, usize>,
    told_outside: bool,
}

/// The group that is open.
#[derive(Debug)]
struct Current {
    name: String,
    line: usize,
    /// What is taken from it; nothing is for a group that is passed over.
    group: Option<Group>,
    table: Option<Table>,
    /// Whether its headings allow rows to be read.
    usable: bool,
    has_units: bool,
    told_no_heading: bool,
    told_no_units: bool,
}

impl<'i> Groups<'i> {
    pub(super) fn new(issues: &'i mut Issues) -> Self {
        Self {
            issues,
            ags: Ags::default(),
            rises: Vec::new(),
            current: None,
            seen: BTreeMap::new(),
            told_outside: false,
        }
    }

    pub(super) fn row(&mut self, row: &Row<'_>) {
        if row.is_blank() {
            return;
        }
        let name = row.text(0);
        if name == "GROUP" {
            if row.pairs(self.issues) {
                self.open(row);
            }
            return;
        }
        if !ROW_NAMES.contains(&name) {
            self.unknown_row(row);
            return;
        }
        let Some(current) = &mut self.current else {
            if !self.told_outside {
                self.told_outside = true;
                self.issues
                    .error(
                        "outside_group",
                        row.place(0),
                        format!("a {name} row stands before any GROUP row"),
                    )
                    .found(name)
                    .allowed("a GROUP row first")
                    .hint("begin the group with a row \"GROUP\" and its name");
            }
            return;
        };
        // What is not taken may be as it likes.
        let Some(group) = current.group else { return };
        let wanted = current.table.as_ref().map(|table| table.columns.len());
        let relaxed = told_apart(row, wanted, self.issues);
        let row = relaxed.as_ref().unwrap_or(row);
        if !row.pairs(self.issues) {
            // A broken heading row would make every row of the group an error.
            current.told_no_heading |= name == "HEADING";
            return;
        }
        match name {
            "HEADING" => current.heading(group, row, self.issues),
            "UNIT" => current.units(row, self.issues),
            "DATA" => {
                if let Some(table) = current.data(row, self.issues) {
                    let mut cells = Cells { table, row, issues: self.issues };
                    data_row(group, &mut cells, &mut self.ags, &mut self.rises);
                }
            }
            _ => {}
        }
    }

    pub(super) fn finish(mut self) -> Ags {
        self.close();
        self.ags.records.water.extend(standing(self.rises));
        self.ags
    }

    fn open(&mut self, row: &Row<'_>) {
        self.close();
        let name = row.text(1).to_owned();
        let place = row.place(1);
        let group = Group::find(&name);
        let shaped =
            name.len() == 4 && name.chars().all(|c| c.is_ascii_uppercase() || c.is_ascii_digit());
        if !shaped {
            let issue = self.issues.error(
                "group_name",
                place,
                format!("\"{name}\" is not the name of a group"),
            );
            issue.found(&name).allowed("four capital letters or digits");
            match nearest(&name, Group::ALL.iter().map(|(known, _)| *known)) {
                Some(near) => issue.hint(format!("did you mean {near}?")),
                None => issue.hint("write the name of the group behind GROUP"),
            };
        } else if group.is_none()
            && !Group::KNOWN.contains(&name.as_str())
            && !self.seen.contains_key(&name)
        {
            self.ags.not_read.push(name.clone());
        }
        if let (Some(first), Some(_)) = (self.seen.get(&name), group) {
            self.issues
                .error(
                    "duplicate_group",
                    place,
                    format!("group {name} began before, in line {first}"),
                )
                .found(&name)
                .allowed("each group once")
                .hint("put all rows of the group under one GROUP row");
        }
        self.seen.entry(name.clone()).or_insert(row.line);
        self.current = Some(Current {
            name,
            line: row.line,
            group,
            table: None,
            usable: false,
            has_units: false,
            told_no_heading: false,
            told_no_units: false,
        });
    }

    /// Ends the open group.
    fn close(&mut self) {
        let Some(current) = self.current.take() else { return };
        if current.group.is_some() && current.table.is_none() && !current.told_no_heading {
            self.issues
                .error(
                    "no_heading",
                    Place::line(current.line),
                    format!("group {} has no HEADING row", current.name),
                )
                .allowed("a HEADING row after the GROUP row")
                .hint("was the file cut off, or the row lost?");
        }
    }

    fn unknown_row(&mut self, row: &Row<'_>) {
        let name = row.text(0);
        let issue = self.issues.error(
            "row_name",
            row.place(0),
            format!("a row begins with \"{}\"", crate::issue::brief(name)),
        );
        issue.found(name).allowed(ROW_NAMES.join(", "));
        match nearest(name, ROW_NAMES) {
            Some(near) => issue.hint(format!("did you mean {near}?")),
            None => issue.hint("a value with a line end in it? AGS4 allows none"),
        };
    }
}

/// The row split at its marks, where it cannot be split otherwise and that gives as many values as there are headings.
fn told_apart<'t>(row: &Row<'t>, wanted: Option<usize>, issues: &mut Issues) -> Option<Row<'t>> {
    let wanted = wanted?;
    let Some(Fault::Unclosed(place) | Fault::AfterClosing(place)) = row.fault else { return None };
    let relaxed = row.split_at_marks().filter(|relaxed| relaxed.fields.len() == wanted)?;
    issues
        .warning("marks_not_doubled", place, "a quotation mark inside a value is not written twice")
        .allowed("\"\" for a mark inside a value")
        .hint("the row was split at every \",\", which gives as many values as there are headings");
    Some(relaxed)
}

impl Current {
    fn heading(&mut self, group: Group, row: &Row<'_>, issues: &mut Issues) {
        if self.table.is_some() {
            issues
                .error(
                    "repeated_row",
                    row.place(0),
                    format!("group {} has a second HEADING row", self.name),
                )
                .allowed("one HEADING row after each GROUP row")
                .hint("is the GROUP row of the next group missing? its rows were passed over");
            // What follows belongs to another group.
            self.group = None;
            return;
        }
        let mut columns: Vec<Column> = Vec::new();
        for at in 0..row.fields.len() {
            // The first value of a row is the row's own name.
            let (name, place) = (if at == 0 { "" } else { row.text(at) }, row.place(at));
            if !name.is_empty() && columns.iter().any(|column| column.name == name) {
                issues
                    .error(
                        "duplicate_column",
                        place,
                        format!("group {} has two headings {name}", self.name),
                    )
                    .found(name)
                    .allowed("each heading once")
                    .hint("rename or remove one of them, with its values");
            }
            columns.push(Column { name: name.to_owned(), place, unit: None, told: false });
        }
        let table = Table {
            what: format!("group {}", self.name),
            columns,
            units_stand: "the UNIT row",
            decimal_comma: false,
            usual_units: true,
        };
        self.usable = table.has(group.needed(), row.line, issues);
        self.table = Some(table);
    }

    fn units(&mut self, row: &Row<'_>, issues: &mut Issues) {
        if self.has_units {
            issues
                .error(
                    "repeated_row",
                    row.place(0),
                    format!("group {} has a second UNIT row", self.name),
                )
                .allowed("one UNIT row")
                .hint("begin another group with its own GROUP row");
            return;
        }
        let Some(table) = self.table_of(row, "UNIT", issues) else { return };
        for (at, column) in table.columns.iter_mut().enumerate() {
            let value = row.text(at).to_owned();
            column.unit = Some(Located { value, place: row.place(at) });
        }
        self.has_units = true;
    }

    /// The table in which a DATA row is read.
    fn data(&mut self, row: &Row<'_>, issues: &mut Issues) -> Option<&mut Table> {
        if self.table.is_some() && !self.has_units && !self.told_no_units {
            self.told_no_units = true;
            issues
                .error(
                    "no_unit_row",
                    row.place(0),
                    format!("group {} has no UNIT row before its first DATA row", self.name),
                )
                .allowed("a UNIT row after the HEADING row")
                .hint("the numbers cannot be read without their units");
        }
        let usable = self.usable;
        self.table_of(row, "DATA", issues).filter(|_| usable)
    }

    /// The table, where the row has as many values as it has headings.
    fn table_of(&mut self, row: &Row<'_>, kind: &str, issues: &mut Issues) -> Option<&mut Table> {
        let name = &self.name;
        let Some(table) = &mut self.table else {
            if !self.told_no_heading {
                self.told_no_heading = true;
                issues
                    .error(
                        "data_before_heading",
                        row.place(0),
                        format!("group {name} has a {kind} row before its HEADING row"),
                    )
                    .allowed("GROUP, HEADING, UNIT, TYPE, then DATA rows")
                    .hint("put the HEADING row of the group first");
            }
            return None;
        };
        let values = |fields: usize| fields.saturating_sub(1);
        let (found, wanted) = (values(row.fields.len()), values(table.columns.len()));
        if found != wanted {
            issues
                .error(
                    "field_count",
                    row.place(0),
                    format!(
                        "a {kind} row of group {name} has {found} values, but its HEADING row names \
                         {wanted}"
                    ),
                )
                .found(format!("{found} values"))
                .allowed(format!("{wanted} values"))
                .hint("write \"\" for a value that is missing; look for a comma or a quotation mark too many or too few");
            return None;
        }
        Some(table)
    }
}
