use serde::Deserialize;
use toml::{Table, Value};

use super::compare::{last_place, leading_number};

/// What the expected values of a case are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum EvidenceOfValues {
    /// Printed in the source.
    Published,
    /// Follow exactly from mechanics or geometry.
    Derived,
    /// Computed from a named formula, outside this program.
    Computed,
    /// Remembered from the source, which was not read.
    FromMemory,
}

impl EvidenceOfValues {
    /// All classes, best first.
    pub const ALL: [Self; 4] = [Self::Published, Self::Derived, Self::Computed, Self::FromMemory];

    /// Name as it stands in a case.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Derived => "derived",
            Self::Computed => "computed",
            Self::FromMemory => "from-memory",
        }
    }
}

/// One case file: a source's table or example.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case {
    /// Path below `cases/` without extension.
    pub id: String,
    /// Who or what, and where in it.
    pub source: String,
    /// What the expected values are.
    pub evidence: EvidenceOfValues,
    /// The source's rounding, misprints, disagreement.
    #[serde(default)]
    pub note: String,
    /// Worksheet, or one of the other methods.
    pub method: String,
    /// Inputs shared by all rows.
    #[serde(default)]
    pub given: Table,
    /// What must come out.
    #[serde(default)]
    pub row: Vec<Row>,
    /// What must be refused.
    #[serde(default)]
    pub reject: Vec<Reject>,
}

/// One row of a case.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "snake_case")]
pub struct Row {
    /// Short name, unique in its case.
    pub name: String,
    /// Inputs of this row, over the shared ones.
    #[serde(default)]
    pub given: Table,
    /// Expected outputs as text in the printed unit.
    pub expect: Table,
    /// Tolerance by output, where half of the last printed digit is not right.
    #[serde(default)]
    pub tolerance: Table,
    /// Way of comparing by output: `near` or `floor`.
    #[serde(default)]
    pub compare: Table,
    /// What a reader should know about this row.
    #[serde(default)]
    pub note: String,
    /// Why the row does not hold yet.
    pub known_failing: Option<String>,
}

/// Inputs that must be refused.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reject {
    /// Inputs, over the shared ones.
    pub given: Table,
    /// Code of the error.
    pub code: String,
    /// Key at which it stands.
    pub at: String,
    /// What a reader should know about this refusal.
    #[serde(default)]
    pub note: String,
}

impl Case {
    /// Reads a case and checks everything that its shape does not.
    ///
    /// # Errors
    /// All defects, as text.
    pub fn read(text: &str, id_of_path: &str) -> Result<Self, Vec<String>> {
        let case: Self = toml::from_str(text).map_err(|e| vec![e.to_string()])?;
        let defects = case.defects(id_of_path);
        if defects.is_empty() { Ok(case) } else { Err(defects) }
    }

    fn defects(&self, id_of_path: &str) -> Vec<String> {
        let mut defects = Vec::new();
        if self.id != id_of_path {
            defects.push(format!("id is \"{}\", but the path says \"{id_of_path}\"", self.id));
        }
        if self.source.trim().is_empty() {
            defects.push("source is empty".to_owned());
        }
        if self.row.is_empty() && self.reject.is_empty() {
            defects.push("the case has neither a row nor a reject".to_owned());
        }
        for (index, row) in self.row.iter().enumerate() {
            if self.row[..index].iter().any(|other| other.name == row.name) {
                defects.push(format!("row \"{}\" stands twice", row.name));
            }
            defects.extend(row.defects(&self.note));
        }
        defects
    }
}

impl Row {
    fn defects(&self, case_note: &str) -> Vec<String> {
        let name = &self.name;
        let mut defects = Vec::new();
        if self.expect.is_empty() {
            defects.push(format!("row \"{name}\" expects nothing"));
        }
        if self.known_failing.as_deref().is_some_and(|why| why.trim().is_empty()) {
            defects.push(format!("row \"{name}\" is known to fail, but does not say why"));
        }
        for (what, table) in [("tolerance", &self.tolerance), ("compare", &self.compare)] {
            for key in table.keys().filter(|key| !self.expect.contains_key(*key)) {
                defects.push(format!("row \"{name}\": {what} of \"{key}\", which is not expected"));
            }
        }
        for (what, table) in
            [("expect", &self.expect), ("tolerance", &self.tolerance), ("compare", &self.compare)]
        {
            for (key, _) in table.iter().filter(|(_, value)| !value.is_str()) {
                defects.push(format!(
                    "row \"{name}\": {what} of \"{key}\" must be a text as printed, in quotes"
                ));
            }
        }
        let explained = !self.note.trim().is_empty() || !case_note.trim().is_empty();
        for (key, expected) in &self.expect {
            let tolerance = self.tolerance.get(key).and_then(Value::as_str);
            let Some(expected) = expected.as_str() else { continue };
            if let Some(why) = loose(expected, tolerance, explained) {
                defects.push(format!("row \"{name}\": {key} = \"{expected}\" {why}"));
            }
        }
        defects
    }
}

/// What is wrong with the accuracy to which a printed value is held, if anything is.
///
/// A tolerance may be wider than half of the last printed digit only where a note says why. Half of the last digit of a
/// bare 0 or 1 would let nearly everything pass, so that such a value needs a tolerance.
fn loose(expected: &str, tolerance: Option<&str>, explained: bool) -> Option<String> {
    let number = leading_number(expected);
    if number.is_empty() {
        return None;
    }
    let Some(tolerance) = tolerance else {
        let bare = matches!(number.trim_start_matches(['-', '+']), "0" | "1");
        return bare.then(|| "needs a tolerance: half of its digit is too much".to_owned());
    };
    let half = 0.5 * last_place(number);
    let within = in_unit_of(expected, tolerance)?;
    let wide = within > half * (1.0 + 1e-9) && !explained;
    wide.then(|| {
        format!(
            "has the tolerance {tolerance}, more than half of its last digit, and no note says why"
        )
    })
}

/// A tolerance in the unit of the printed value; `None` where it cannot be read, which the run reports.
fn in_unit_of(expected: &str, tolerance: &str) -> Option<f64> {
    if let Some(bare) = quantity::parse_number(tolerance) {
        return Some(bare);
    }
    let kinds = quantity::unit::ALL.iter().map(|unit| unit.kind());
    let read = |kind| {
        let (_, unit) = quantity::parse(expected, kind).ok()?;
        let (si, _) = quantity::parse(tolerance, kind).ok()?;
        Some(unit.from_si(si))
    };
    kinds.map(read).find_map(|found| found)
}

#[cfg(test)]
mod tests {
    use super::*;

    const GOOD: &str = r#"
        id = "a/b"
        source = "a book, p. 1"
        evidence = "from-memory"
        method = "joint-radius"
        [[row]]
        name = "one"
        expect = { radius = "69 m" }
    "#;

    fn defects(text: &str) -> Vec<String> {
        Case::read(text, "a/b").unwrap_err()
    }

    #[test]
    fn good_case_is_read() {
        let case = Case::read(GOOD, "a/b").unwrap();
        assert_eq!(case.evidence.name(), "from-memory");
        assert_eq!(case.row.len(), 1);
    }

    #[test]
    fn unknown_keys_wrong_ids_and_empty_cases_are_refused() {
        assert!(defects(&GOOD.replace("expect", "expects"))[0].contains("expects"));
        assert!(defects(&GOOD.replace("from-memory", "guess"))[0].contains("guess"));
        assert!(Case::read(GOOD, "a/c").unwrap_err()[0].contains("the path says \"a/c\""));
        let empty = &GOOD[..GOOD.find("[[row]]").unwrap()];
        assert_eq!(defects(empty), ["the case has neither a row nor a reject"]);
        assert_eq!(
            defects(&GOOD.replace("radius = \"69 m\"", "")),
            ["row \"one\" expects nothing"]
        );
        let number = defects(&GOOD.replace("\"69 m\"", "69"));
        assert!(number[0].contains("must be a text"), "{number:?}");
        let stray = format!("{GOOD}\ntolerance = {{ offset = \"1 m\" }}");
        assert!(defects(&stray)[0].contains("\"offset\", which is not expected"));
    }

    #[test]
    fn a_wide_tolerance_needs_a_note_and_a_bare_zero_or_one_a_tolerance() {
        let case = |value: &str, rest: &str| {
            let text = GOOD.replace("\"69 m\"", &format!("\"{value}\""));
            Case::read(&format!("{text}{rest}"), "a/b").map(|_| ())
        };
        let wide = |text: &str| format!("tolerance = {{ radius = \"{text}\" }}\n");
        for good in ["0.5", "0.5 m", "500 mm", "1e-9 ft"] {
            assert_eq!(case("69 m", &wide(good)), Ok(()), "{good}");
        }
        for bad in ["0.51", "0.51 m", "600 mm", "2 ft"] {
            let defects = case("69 m", &wide(bad)).unwrap_err();
            assert!(defects[0].contains("no note says why"), "{bad}: {defects:?}");
            let note = format!("{}note = \"cut to tens\"\n", wide(bad));
            assert_eq!(case("69 m", &note), Ok(()), "{bad}");
        }
        for bare in ["0 m", "-0 kN", "1", "1 m"] {
            assert!(case(bare, "").unwrap_err()[0].contains("needs a tolerance"), "{bare}");
            assert_eq!(case(bare, &wide("1e-9")), Ok(()), "{bare}");
        }
        assert_eq!(case("0.00 kN", ""), Ok(()));
        assert_eq!(case("straight", ""), Ok(()));
    }

    #[test]
    fn rows_of_one_name_are_refused() {
        let row = &GOOD[GOOD.find("[[row]]").unwrap()..];
        assert_eq!(defects(&format!("{GOOD}{row}")), ["row \"one\" stands twice"]);
    }
}
