use std::collections::BTreeMap;
use std::fmt;

use toml::Table;

use super::arguments::text_of;
use super::method::WORKING;
use super::{Answer, Case, EvidenceOfValues, Expectation, Reject, Row, Value, run_method};

/// Result of running cases.
#[derive(Debug, Default)]
pub struct Summary {
    /// Cases that were run.
    pub cases: usize,
    /// Rows that were run.
    pub rows: usize,
    /// Values that were compared.
    pub values: usize,
    /// Refusals that were checked.
    pub rejects: usize,
    /// Rows by what their expected values are.
    pub rows_by_evidence: BTreeMap<EvidenceOfValues, usize>,
    /// Rows that are known not to hold, with the reason.
    pub known_failing: Vec<String>,
    /// What does not hold.
    pub failures: Vec<String>,
}

impl fmt::Display for Summary {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{} cases, {} rows, {} values, {} refusals",
            self.cases, self.rows, self.values, self.rejects
        )?;
        for evidence in EvidenceOfValues::ALL {
            let rows = self.rows_by_evidence.get(&evidence).copied().unwrap_or(0);
            write!(f, "; {rows} rows {}", evidence.name())?;
        }
        write!(f, "; {} known to fail; {} failures", self.known_failing.len(), self.failures.len())
    }
}

/// Runs cases and adds up what came out.
#[must_use]
pub fn run_all(cases: &[Case]) -> Summary {
    let mut summary = Summary::default();
    for case in cases {
        run_case(case, &mut summary);
    }
    summary
}

/// Runs one case and adds it to a summary.
pub fn run_case(case: &Case, summary: &mut Summary) {
    summary.cases += 1;
    for row in &case.row {
        summary.rows += 1;
        *summary.rows_by_evidence.entry(case.evidence).or_default() += 1;
        summary.values += row.expect.len();
        let given = merged(&case.given, &row.given);
        let found = failures_of(case, row, &given);
        let head = || format!("{} row \"{}\"", case.id, row.name);
        match (&row.known_failing, found.is_empty()) {
            (None, true) => {}
            (None, false) => summary.failures.push(report(case, &head(), &given, &found)),
            (Some(why), false) => summary.known_failing.push(format!("{}: {why}", head())),
            (Some(_), true) => summary
                .failures
                .push(format!("{} holds, but is marked as known to fail: unmark it", head())),
        }
    }
    for (index, reject) in case.reject.iter().enumerate() {
        summary.rejects += 1;
        let given = merged(&case.given, &reject.given);
        if let Some(wrong) = wrong_refusal(case, reject, &given) {
            let head = format!("{} reject {}", case.id, index + 1);
            summary.failures.push(report(case, &head, &given, &[wrong]));
        }
    }
}

fn merged(shared: &Table, own: &Table) -> Table {
    let mut all = shared.clone();
    all.extend(own.iter().map(|(key, value)| (key.clone(), value.clone())));
    all
}

fn failures_of(case: &Case, row: &Row, given: &Table) -> Vec<String> {
    match run_method(&case.method, given) {
        None => vec![no_method(case)],
        Some(Err(refusals)) => refusals
            .iter()
            .map(|r| format!("refused ({} at \"{}\"): {}", r.code, r.key, r.message))
            .collect(),
        Some(Ok(answer)) => row
            .expect
            .iter()
            .filter_map(|(key, text)| {
                compare(row, key, &text_of(text), &answer).err().map(|e| format!("{key}: {e}"))
            })
            .collect(),
    }
}

fn no_method(case: &Case) -> String {
    format!("there is no worksheet or other method \"{}\"", case.method)
}

fn compare(row: &Row, key: &str, expected: &str, answer: &Answer) -> Result<(), String> {
    let option = |table: &Table| table.get(key).map(text_of);
    match answer.iter().find(|(name, _)| name == key).map(|(_, value)| value) {
        None => {
            let names = answer.iter().map(|(name, _)| name.as_str());
            let names: Vec<_> = names.filter(|name| !name.starts_with(WORKING)).collect();
            Err(format!("is no output; outputs are {}", names.join(", ")))
        }
        Some(Value::Word(word)) if word == expected => Ok(()),
        Some(Value::Word(word)) => Err(format!("expected \"{expected}\", found \"{word}\"")),
        Some(Value::Number(si, kind)) => {
            let (tolerance, way) = (option(&row.tolerance), option(&row.compare));
            let expectation =
                Expectation::read(expected, *kind, tolerance.as_deref(), way.as_deref())?;
            let comparison = expectation.compare(*si);
            if comparison.agrees { Ok(()) } else { Err(comparison.text) }
        }
    }
}

fn wrong_refusal(case: &Case, reject: &Reject, given: &Table) -> Option<String> {
    let Reject { code, at, .. } = reject;
    match run_method(&case.method, given) {
        None => Some(no_method(case)),
        Some(Ok(_)) => Some(format!("must be refused with {code} at \"{at}\", but was accepted")),
        Some(Err(found)) if found.iter().any(|f| f.code == *code && f.key == *at) => None,
        Some(Err(found)) => {
            let found: Vec<_> =
                found.iter().map(|f| format!("{} at \"{}\"", f.code, f.key)).collect();
            Some(format!(
                "must be refused with {code} at \"{at}\", but was with {}",
                found.join(", ")
            ))
        }
    }
}

fn report(case: &Case, head: &str, given: &Table, found: &[String]) -> String {
    let mut text = format!("{head}\n  source: {} ({})\n", case.source, case.evidence.name());
    if !case.note.is_empty() {
        text.push_str(&format!("  note: {}\n", case.note));
    }
    let inputs: Vec<_> = given.iter().map(|(k, v)| format!("{k} = {}", text_of(v))).collect();
    text.push_str(&format!("  method: {}\n  given: {}\n", case.method, inputs.join(", ")));
    for line in found {
        text.push_str(&format!("  {line}\n"));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn summary(row: &str) -> Summary {
        let text = format!(
            "id = \"a\"\nsource = \"exact\"\nevidence = \"derived\"\nmethod = \"joint-side-force\"\n\
             [given]\nforce = \"500 kN\"\n{row}"
        );
        run_all(&[Case::read(&text, "a").unwrap()])
    }

    const ROW: &str = "[[row]]\nname = \"one\"\ngiven = { joint_angle = \"2 deg\" }\n";

    #[test]
    fn agreeing_row_counts_and_disagreeing_row_tells_everything() {
        let good = summary(&format!("{ROW}expect = {{ side_force = \"17.45 kN\" }}"));
        assert!(good.failures.is_empty(), "{:?}", good.failures);
        assert_eq!((good.cases, good.rows, good.values), (1, 1, 1));
        let bad = summary(&format!("{ROW}expect = {{ side_force = \"17.55 kN\" }}"));
        let text = &bad.failures[0];
        for part in ["a row \"one\"", "exact", "force = 500 kN", "joint_angle = 2 deg", "17.55 kN"]
        {
            assert!(text.contains(part), "{part} is missing in {text}");
        }
        assert!(
            text.contains("calculated 17.4524 kN") && text.contains("tolerance 0.005"),
            "{text}"
        );
    }

    #[test]
    fn unknown_outputs_methods_and_inputs_are_failures() {
        let output = summary(&format!("{ROW}expect = {{ force = \"17.45 kN\" }}"));
        assert!(output.failures[0].contains("outputs are side_force"));
        let input = summary(&format!(
            "{}expect = {{ side_force = \"17.45 kN\" }}",
            ROW.replace("joint_angle", "angle")
        ));
        assert!(input.failures[0].contains("unknown_key"));
        assert!(run_method("no-such-method", &Table::new()).is_none());
    }

    #[test]
    fn row_known_to_fail_is_listed_and_must_fail() {
        let mark = "known_failing = \"the source misprints\"\n";
        let failing = summary(&format!("{ROW}{mark}expect = {{ side_force = \"18 kN\" }}"));
        assert!(failing.failures.is_empty());
        assert_eq!(failing.known_failing, ["a row \"one\": the source misprints"]);
        let passing = summary(&format!("{ROW}{mark}expect = {{ side_force = \"17 kN\" }}"));
        assert!(passing.failures[0].contains("unmark it"));
    }

    #[test]
    fn refusals_are_held_against_code_and_key() {
        let reject = |code: &str, at: &str, angle: &str| {
            summary(&format!(
                "[[reject]]\ngiven = {{ joint_angle = \"{angle}\" }}\ncode = \"{code}\"\nat = \"{at}\""
            ))
        };
        assert!(reject("out_of_range", "joint_angle", "-1 deg").failures.is_empty());
        assert_eq!(reject("missing", "joint_angle", "-1 deg").failures.len(), 1);
        assert_eq!(reject("out_of_range", "force", "-1 deg").failures.len(), 1);
        assert!(reject("out_of_range", "joint_angle", "1 deg").failures[0].contains("accepted"));
    }
}
