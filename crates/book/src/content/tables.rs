//! Tables of what acts, of the work and of changes; a table without rows is left out.

use assess::{Change, Reading, Remedy};
use serde_json::{Value, json};

use super::Writer;

/// Title of their chapter.
pub(super) fn title(w: &Writer<'_>) -> &'static str {
    if w.subject.assessment.technique == "bursting" {
        "Forces and runs"
    } else {
        "Forces, fluid and spoil"
    }
}

/// Tables of what acts and of the work, those that the design has.
pub(super) fn all(w: &Writer<'_>) -> Value {
    let parts = [methods(w), forces(w), runs(w), limits(w), passes(w)];
    Value::Array(parts.into_iter().flatten().collect())
}

fn shown(w: &Writer<'_>, reading: Reading) -> String {
    w.value(reading)
}

fn maybe(w: &Writer<'_>, reading: Option<Reading>) -> String {
    reading.map_or_else(|| "–".to_owned(), |r| shown(w, r))
}

/// A table with remarks below it, each a name and a text.
fn table(
    title: &str,
    head: &[&str],
    widths: &[i8],
    rows: Vec<Vec<Value>>,
    remarks: Vec<Value>,
) -> Option<Value> {
    (!rows.is_empty()).then(|| {
        json!({
            "title": title, "head": head, "widths": widths, "rows": rows, "remarks": remarks,
        })
    })
}

fn text(text: impl Into<String>) -> Value {
    Value::String(text.into())
}

fn methods(w: &Writer<'_>) -> Option<Value> {
    let l = &w.letters;
    let list = &w.subject.assessment.methods;
    let rows = list
        .iter()
        .map(|m| {
            let force = m.force.map_or_else(
                || "–".to_owned(),
                |(low, high)| {
                    let (low, high) = (shown(w, low), shown(w, high));
                    if low == high { high } else { format!("{low} to {high}") }
                },
            );
            vec![
                text(l.line(&m.name)),
                text(force),
                text(m.at.map_or_else(|| "–".to_owned(), |at| w.place(at))),
                text(if m.applicable { "yes" } else { "comparison" }),
                w.references.cite(&m.source),
            ]
        })
        .collect();
    let remarks = list
        .iter()
        .map(|m| {
            let parts = [l.sentence(&m.remark), l.sentence(&m.validity)];
            let said: Vec<String> = parts.into_iter().filter(|p| !p.is_empty()).collect();
            json!([l.line(&m.name), said.join(" ")])
        })
        .collect();
    table(
        "Pull by each method",
        &["method", "greatest pull at the head", w.place_word(), "applies", "source"],
        &[3, -1, -1, 0, 0],
        rows,
        remarks,
    )
}

fn forces(w: &Writer<'_>) -> Option<Value> {
    let list = &w.subject.assessment.forces;
    let rows = list
        .iter()
        .map(|f| {
            vec![
                text(w.letters.line(&f.name)),
                text(shown(w, f.low)),
                text(shown(w, f.planning)),
                text(shown(w, f.high)),
                w.references.cite(&f.source),
            ]
        })
        .collect();
    let remarks = list
        .iter()
        .filter(|f| !f.remark.is_empty())
        .map(|f| json!([w.letters.line(&f.name), w.letters.sentence(&f.remark)]))
        .collect();
    table(
        "Forces as a band, the hardest run",
        &["part", "low", "planning", "high", "source"],
        &[1, -1, -1, -1, 0],
        rows,
        remarks,
    )
}

fn runs(w: &Writer<'_>) -> Option<Value> {
    let list = &w.subject.assessment.runs;
    let rows = list
        .iter()
        .map(|r| {
            vec![
                text(w.letters.line(&r.name)),
                text(shown(w, r.launch)),
                text(shown(w, r.machine)),
                text(shown(w, r.length)),
                text(format!("{:.0}", r.pipes)),
                text(shown(w, r.time)),
                text(format!("{}", r.services)),
                text(format!("{}", r.opened)),
                text(maybe(w, r.lubricant)),
            ]
        })
        .collect();
    let remarks = list
        .iter()
        .map(|r| {
            let words = format!(
                "pipe by pipe {} and {}; as one string {} and {}",
                shown(w, r.time_pipe_by_pipe),
                maybe(w, r.force_pipe_by_pipe),
                shown(w, r.time_string),
                maybe(w, r.force_string),
            );
            json!([
                format!(
                    "run {}, time and greatest force in the string for planning",
                    w.letters.line(&r.name)
                ),
                format!("{words}.")
            ])
        })
        .collect();
    table(
        "Runs in the order of the work",
        &[
            "run",
            "launch pit",
            "machine pit",
            "length",
            "pipes",
            "time of the pull",
            "services",
            "dig out",
            "lubricant",
        ],
        &[1, -1, -1, -1, -1, -1, -1, -1, -1],
        rows,
        remarks,
    )
}

fn limits(w: &Writer<'_>) -> Option<Value> {
    let list = &w.subject.assessment.limits;
    let rows = list
        .iter()
        .map(|s| {
            vec![
                text(w.letters.line(&s.name)),
                text(shown(w, s.chainage)),
                text(shown(w, s.pressure)),
                text(shown(w, s.allowed)),
                text(shown(w, s.limit)),
                text(maybe(w, s.first_yield)),
                text(maybe(w, s.tension)),
                text(shown(w, s.weight)),
            ]
        })
        .collect();
    let spans = |list: &[(f64, f64)]| {
        let parts: Vec<String> = list
            .iter()
            .map(|(from, to)| format!("{} to {}", w.place(*from), w.place(*to)))
            .collect();
        parts.join(", ")
    };
    let mut remarks = Vec::new();
    for s in list {
        for (what, list) in [
            ("more than may act, at chainage", &s.exceeded),
            ("more than may act in the end zones, at chainage", &s.exceeded_in_end_zones),
        ] {
            if !list.is_empty() {
                remarks.push(json!([w.letters.line(&s.name), format!("{what} {}.", spans(list))]));
            }
        }
    }
    table(
        "Fluid against the ground, stage by stage",
        &[
            "stage",
            "at chainage",
            "acts",
            "may act",
            "ground bears",
            "wall yields",
            "cracks",
            "weight above",
        ],
        &[1, -1, -1, -1, -1, -1, -1, -1],
        rows,
        remarks,
    )
}

fn passes(w: &Writer<'_>) -> Option<Value> {
    let rows = w
        .subject
        .assessment
        .passes
        .iter()
        .map(|p| {
            vec![
                text(w.letters.line(&p.name)),
                text(shown(w, p.diameter)),
                text(p.fluid_ratio.map_or_else(|| "–".to_owned(), |r| quantity::significant(r, 3))),
                text(shown(w, p.cut)),
                text(shown(w, p.fluid)),
                text(shown(w, p.returns)),
                text(shown(w, p.returns_density)),
                text(maybe(w, p.largest_advance)),
                text(shown(w, p.bentonite)),
                text(format!("{:.0}", p.tankers)),
            ]
        })
        .collect();
    table(
        "Fluid and spoil, pass by pass",
        &[
            "pass",
            "bore",
            "ratio",
            "cut",
            "fluid",
            "out",
            "density",
            "largest advance",
            "bentonite",
            "tankers",
        ],
        &[1, -1, -1, -1, -1, -1, -1, -1, -1, -1],
        rows,
        Vec::new(),
    )
}

/// What would make failing checks pass.
pub(super) fn changes(w: &Writer<'_>) -> Value {
    let (a, l) = (&w.subject.assessment, &w.letters);
    let fix = |c: &Change| {
        vec![
            text(l.id(&c.parameter)),
            text(l.line(&c.from)),
            text(l.line(&c.to)),
            text(l.line(&c.note)),
        ]
    };
    let remedy = |r: &Remedy| {
        vec![
            text(l.id(&r.check)),
            text(l.id(&r.parameter)),
            text(l.line(&r.from)),
            text(l.line(&r.to)),
            text(l.line(&r.note)),
        ]
    };
    let together = table(
        "Changes that together make every check pass",
        &["value of the file", "from", "to", "note"],
        &[3, 0, 0, 4],
        a.fixes.iter().map(fix).collect(),
        Vec::new(),
    );
    let single = table(
        "Changes one at a time",
        &["check that would pass", "value of the file", "from", "to", "look also at"],
        &[3, 3, 0, 0, 3],
        a.remedies.iter().map(remedy).collect(),
        Vec::new(),
    );
    let list: Vec<Value> = [together, single].into_iter().flatten().collect();
    json!({
        "tables": list,
        "complete": a.search_complete,
    })
}
