//! An assessment for a person: the parts that several commands print.

use std::io;

use anstyle::Style;
use assess::{Assessment, Change, Check, Method, Reading, Sense, Status, VerdictStatus};
use quantity::{System, unit};
use working::{Assumption, Evidence};

use super::style::{BAD, CLOSE, GOOD};
use super::{Cell, Column, Page, Table, counted};

/// Sign, word and style of an outcome; the sign and the word say the same as the style.
pub(crate) fn sign(status: Status) -> (&'static str, &'static str, Style) {
    match status {
        Status::Pass => ("✓", "pass", GOOD),
        Status::Attention => ("!", "attention", CLOSE),
        Status::Fail => ("✗", "FAIL", BAD),
        Status::NotAssessed => ("?", "not assessed", CLOSE),
    }
}

/// What was read by which program, then name and note of the crossing.
pub(crate) fn title(
    page: &mut Page<'_>,
    file: &str,
    name: &str,
    note: Option<&str>,
) -> io::Result<()> {
    page.quiet(0, &format!("underhaul {}, {file}", env!("CARGO_PKG_VERSION")))?;
    page.gap()?;
    page.title(name)?;
    note.map_or(Ok(()), |note| page.quiet(0, note))
}

/// Facts and figures of the crossing.
pub(crate) fn figures(page: &mut Page<'_>, a: &Assessment, system: System) -> io::Result<()> {
    page.gap()?;
    let facts = a.crossing.facts.iter().map(|(name, text)| (Cell::new(name), Cell::new(text)));
    let figures = a
        .crossing
        .figures
        .iter()
        .map(|(name, value)| (Cell::new(name), Cell::new(value.shown(system))));
    page.names(facts.chain(figures).collect())
}

/// The verdict in one or two sentences, and how many warnings there are on the file.
pub(crate) fn verdict(page: &mut Page<'_>, a: &Assessment) -> io::Result<()> {
    let (sign, style) = match a.verdict.status {
        VerdictStatus::Feasible => ("✓", GOOD),
        VerdictStatus::FeasibleWithAttention => ("!", CLOSE),
        VerdictStatus::Incomplete => ("?", CLOSE),
        VerdictStatus::NotFeasible => ("✗", BAD),
    };
    page.gap()?;
    page.marked(sign, style, 2, &a.verdict.sentence)?;
    if a.warnings.is_empty() {
        return Ok(());
    }
    let count = counted(a.warnings.len(), "warning", "warnings");
    page.marked("!", CLOSE, 2, &format!("{count} on the file, see above (standard error)"))
}

/// The table of checks, in the order of the work.
pub(crate) fn checks<'c>(
    page: &mut Page<'_>,
    a: &Assessment,
    checks: impl Iterator<Item = &'c Check>,
    system: System,
) -> io::Result<()> {
    let mut table = Table::new(vec![
        Column::left("check").wrap(16),
        Column::right("value"),
        Column::right("limit"),
        Column::right("used"),
        Column::right(if is_bursting(a) { "at ch." } else { "at md" }),
        Column::left("outcome"),
    ]);
    for check in checks {
        let (sign, word, style) = sign(check.status);
        table.row(vec![
            Cell::new(&check.id),
            Cell::new(check.demand.map_or("–".to_owned(), |v| v.shown(system))),
            Cell::new(limit(check, system)),
            Cell::new(if is_kept_rule(check) { "rule".to_owned() } else { used(check) }),
            Cell::new(place(check.at, system)),
            Cell::styled(format!("{sign} {word}"), style),
        ]);
    }
    page.table(&table)
}

/// What the signs and words of the table of checks mean, as far as they stand in it.
pub(crate) fn legend<'c>(
    page: &mut Page<'_>,
    a: &Assessment,
    checks: impl Iterator<Item = &'c Check> + Clone,
) -> io::Result<()> {
    page.quiet(2, "≤ at most, ≥ at least")?;
    page.quiet(2, "used: value over limit with ≤, limit over value with ≥; met up to 100 %")?;
    if checks.clone().any(is_kept_rule) {
        page.quiet(2, "rule: a rule that is kept; how near its limit is says nothing")?;
    }
    let place = if is_bursting(a) {
        "ch.: chainage along the old main"
    } else {
        "md: measured distance along the bore from the rig side"
    };
    page.quiet(2, place)
}

/// Whether places are chainages along an old main.
fn is_bursting(a: &Assessment) -> bool {
    a.technique == "bursting"
}

/// Whether nearness to the limit says nothing, because the check is a rule and it is kept.
pub(crate) fn is_kept_rule(check: &Check) -> bool {
    check.rule && matches!(check.status, Status::Pass | Status::Attention)
}

/// The limit with the side on which the value must stay.
pub(crate) fn limit(check: &Check, system: System) -> String {
    let sense = match check.sense {
        Sense::AtMost => "≤",
        Sense::AtLeast => "≥",
    };
    check.limit.map_or("–".to_owned(), |limit| format!("{sense} {}", limit.shown(system)))
}

/// Share of the limit that is used, or a dash.
pub(crate) fn used(check: &Check) -> String {
    check.share_used().unwrap_or_else(|| "–".to_owned())
}

/// Measured distance of a place on the bore.
pub(crate) fn place(at: Option<f64>, system: System) -> String {
    at.map_or(String::new(), |md| quantity::show_with(md, unit::M, system))
}

/// Why checks that are not simply met have their outcome.
pub(crate) fn reasons<'c>(
    page: &mut Page<'_>,
    checks: impl Iterator<Item = &'c Check>,
) -> io::Result<()> {
    let mut open = checks.filter(|c| c.status != Status::Pass).peekable();
    if open.peek().is_none() {
        return Ok(());
    }
    page.heading("Why")?;
    for check in open {
        let (sign, _, style) = sign(check.status);
        page.marked(&format!("{sign} {}", check.id), style, 4, &format!("({})", check.title))?;
        page.paragraph(4, &check.because)?;
        if !check.missing.is_empty() {
            page.indented("    missing:", 6, &check.missing.join(", "))?;
        }
    }
    Ok(())
}

/// What would make failing checks pass.
pub(crate) fn remedies(page: &mut Page<'_>, a: &Assessment) -> io::Result<()> {
    if !a.checks.iter().any(|c| c.status == Status::Fail) {
        return Ok(());
    }
    page.heading("What must change")?;
    for check in a.checks.iter().filter(|c| c.status == Status::Fail) {
        let of_check: Vec<_> = a.remedies.iter().filter(|r| r.check == check.id).collect();
        page.marked(&format!("✗ {}", check.id), BAD, 4, "")?;
        if of_check.is_empty() {
            let other = match (a.fixes.is_empty(), a.search_complete) {
                (false, _) => "see what helps all together",
                (true, true) => "several values must change, or the limit is out of reach",
                (true, false) => "not all were tried",
            };
            let none = format!("no single change among those tried helps: {other}");
            page.paragraph(4, &none)?;
        }
        for remedy in of_check {
            change(page, &remedy.parameter, &remedy.from, &remedy.to, &remedy.note)?;
        }
    }
    if !repeats_a_remedy(a) {
        together(page, a)?;
    }
    if !a.search_complete {
        page.gap()?;
        page.quiet(2, "the search ended at its bound of work: other changes may help, too")?;
    }
    Ok(())
}

/// Whether one check fails and the one change that fixes it stands below it already.
fn repeats_a_remedy(a: &Assessment) -> bool {
    let one_fails = a.checks.iter().filter(|c| c.status == Status::Fail).count() == 1;
    let listed = |f: &Change| a.remedies.iter().any(|r| r.parameter == f.parameter && r.to == f.to);
    one_fails && a.fixes.len() == 1 && a.fixes.iter().all(listed)
}

/// Changes that as a whole make every check pass.
fn together(page: &mut Page<'_>, a: &Assessment) -> io::Result<()> {
    if a.fixes.is_empty() {
        return Ok(());
    }
    page.heading("All together")?;
    let open = a.checks.iter().filter(|c| c.status == Status::NotAssessed).count();
    let sentence = match open {
        0 => "these changes together make every check pass:".to_owned(),
        n => format!(
            "these changes together make every check pass that could be made; {n} could not:"
        ),
    };
    page.paragraph(2, &sentence)?;
    a.fixes.iter().try_for_each(|f| change(page, &f.parameter, &f.from, &f.to, &f.note))
}

fn change(
    page: &mut Page<'_>,
    parameter: &str,
    from: &str,
    to: &str,
    note: &str,
) -> io::Result<()> {
    page.indented("    →", 6, &format!("{parameter} from {from} to {to}"))?;
    if note.is_empty() { Ok(()) } else { page.quiet(6, note) }
}

/// Fluid against the ground at the worst place of every stage, and the stretches where it is too much.
pub(crate) fn limits(page: &mut Page<'_>, a: &Assessment, system: System) -> io::Result<()> {
    if a.limits.is_empty() {
        return Ok(());
    }
    page.heading("Fluid against the ground, stage by stage")?;
    let mut table = Table::new(vec![
        Column::left("stage"),
        Column::right("at"),
        Column::right("acts"),
        Column::right("may act"),
        Column::right("yields"),
        Column::right("cracks"),
        Column::right("weight"),
    ]);
    let maybe = |v: Option<Reading>| Cell::new(v.map_or("–".to_owned(), |v| v.shown(system)));
    for stage in &a.limits {
        table.row(vec![
            Cell::new(&stage.id),
            Cell::new(stage.chainage.shown(system)),
            Cell::new(stage.pressure.shown(system)),
            Cell::new(stage.allowed.shown(system)),
            maybe(stage.first_yield),
            maybe(stage.tension),
            Cell::new(stage.weight.shown(system)),
        ]);
    }
    page.table(&table)?;
    page.gap()?;
    page.quiet(
        2,
        "at: chainage of the least margin outside the end zones; acts: pressure of the fluid; yields: the wall yields first; cracks: elastic ground cracks; weight: of all that lies above. The classic cavity limit over-predicts in most field studies",
    )?;
    for stage in &a.limits {
        for (where_, list) in
            [("", &stage.exceeded), (" in the end zones", &stage.exceeded_in_end_zones)]
        {
            if list.is_empty() {
                continue;
            }
            let m = |v: f64| Reading::new(v, unit::M).shown(system);
            let words: Vec<String> =
                list.iter().map(|(from, to)| format!("{} to {}", m(*from), m(*to))).collect();
            let text = format!("{}: too much{where_} from {}", stage.id, words.join(", "));
            page.indented(" ", 2, &text)?;
        }
        if let Some(used) =
            stage.used_in_end_zones.filter(|_| stage.exceeded_in_end_zones.is_empty())
        {
            let text = format!("{}: in the end zones {:.0} % used at most", stage.id, 100.0 * used);
            page.indented(" ", 2, &text)?;
        }
    }
    Ok(())
}

/// Volumes and rates of every pass.
pub(crate) fn passes(page: &mut Page<'_>, a: &Assessment, system: System) -> io::Result<()> {
    if a.passes.is_empty() {
        return Ok(());
    }
    page.heading("Fluid and spoil, pass by pass")?;
    let mut table = Table::new(vec![
        Column::left("pass"),
        Column::right("bore"),
        Column::right("ratio"),
        Column::right("cut"),
        Column::right("fluid"),
        Column::right("out"),
        Column::right("density"),
        Column::right("advance"),
    ]);
    let volume = |v: f64| Cell::new(Reading::new(v, unit::M3).shown(system));
    let (mut fluid, mut out, mut bentonite, mut cut) = (0.0, 0.0, 0.0, 0.0);
    for pass in &a.passes {
        let advance = pass.largest_advance.map_or("–".to_owned(), |v| v.shown(system));
        table.row(vec![
            Cell::new(&pass.name),
            Cell::new(pass.diameter.shown(system)),
            Cell::new(pass.fluid_ratio.map_or("–".to_owned(), |r| quantity::significant(r, 3))),
            volume(pass.cut.value),
            volume(pass.fluid.value),
            volume(pass.returns.value),
            Cell::new(pass.returns_density.shown(system)),
            Cell::new(advance),
        ]);
        cut += pass.cut.value;
        fluid += pass.fluid.value;
        out += pass.returns.value;
        bentonite += pass.bentonite.value;
    }
    let none = || Cell::new("");
    let total = Reading::new(bentonite, unit::T).shown(system);
    table.row(vec![
        Cell::new("all"),
        none(),
        none(),
        volume(cut),
        volume(fluid),
        volume(out),
        none(),
        none(),
    ]);
    page.table(&table)?;
    page.gap()?;
    let tankers: f64 = a.passes.iter().map(|p| p.tankers).sum();
    page.quiet(
        2,
        &format!(
            "ratio: fluid per ground cut; out: ground and fluid that come out, without losses and recycling; advance: the most that the flow serves at this ratio. In all {total} of bentonite, and {tankers} tankers where nothing is recycled"
        ),
    )
}

/// The pull by each method, side by side.
pub(crate) fn methods(page: &mut Page<'_>, a: &Assessment, system: System) -> io::Result<()> {
    if a.methods.is_empty() {
        return Ok(());
    }
    page.heading("Greatest pull at the head, by method")?;
    let mut table = Table::new(vec![
        Column::left("id"),
        Column::left("method").wrap(20),
        Column::right("low"),
        Column::right("high"),
        Column::left("evidence").wrap(10),
    ]);
    for method in &a.methods {
        let end = |pick: fn(&(Reading, Reading)) -> Reading| {
            Cell::new(match method.force.as_ref().map(|f| pick(f).shown(system)) {
                Some(force) if method.applicable => force,
                Some(force) => format!("({force})"),
                None => "–".to_owned(),
            })
        };
        table.row(vec![
            Cell::new(&method.id),
            Cell::new(&method.name),
            end(|f| f.0),
            end(|f| f.1),
            Cell::new(evidence(method.source.evidence)),
        ]);
    }
    page.table(&table)?;
    page.gap()?;
    if a.methods.iter().any(|m| !m.applicable && m.force.is_some()) {
        page.quiet(2, "in parentheses: not made for such a crossing, for comparison only")?;
    }
    a.methods.iter().try_for_each(|m| remark(page, m))
}

fn remark(page: &mut Page<'_>, method: &Method) -> io::Result<()> {
    let remark = method.remark.trim_end_matches('.');
    let validity = if method.applicable {
        String::new()
    } else {
        format!(" Range: {}.", method.validity.trim_end_matches('.'))
    };
    let text = format!("{remark}.{validity} Source: {}", method.source.text);
    page.indented(&format!("  {}:", method.id), 4, &text)
}

/// Evidence in a table: the first words of its label.
pub(crate) fn evidence(evidence: Evidence) -> &'static str {
    let label = evidence.label();
    label.split(',').next().unwrap_or(label)
}

/// Values that nobody gave; those of one key in several tables of a list together.
pub(crate) fn assumptions(page: &mut Page<'_>, list: &[Assumption]) -> io::Result<()> {
    if list.is_empty() {
        return Ok(());
    }
    page.heading("Assumed, because nobody gave it")?;
    let mut rest = list;
    while let Some((first, _)) = rest.split_first() {
        let alike = rest.iter().take_while(|a| alike(first, a)).count();
        let (group, after) = rest.split_at(alike);
        rest = after;
        match group {
            [one] => {
                let text = format!("= {}: {}", one.value, one.meaning);
                page.indented(&format!("  {}", one.path), 6, &text)?;
            }
            many => {
                let (before, key, _) = numbered(&first.path);
                let values: Vec<_> = many
                    .iter()
                    .map(|a| format!("{} (no. {})", a.value, numbered(&a.path).2))
                    .collect();
                let text = format!("= {}: {}", values.join(", "), first.meaning);
                page.indented(&format!("  {before}/*/{key}"), 6, &text)?;
            }
        }
        page.quiet(6, &first.source.to_string())?;
    }
    Ok(())
}

/// Whether two assumptions are of the same key in tables of one list, for the same reason.
fn alike(a: &Assumption, b: &Assumption) -> bool {
    let (one, other) = (numbered(&a.path), numbered(&b.path));
    std::ptr::eq(a, b)
        || (!one.2.is_empty() && one.0 == other.0 && one.1 == other.1 && a.source == b.source)
}

/// A path of a key in a table of a list: what stands before the number, the key, and the number counted from 1; without a
/// number an empty text.
fn numbered(path: &str) -> (&str, &str, String) {
    let split = path.rsplit_once('/').and_then(|(table, key)| {
        let (before, number) = table.rsplit_once('/')?;
        Some((before, key, (number.parse::<usize>().ok()? + 1).to_string()))
    });
    split.unwrap_or((path, "", String::new()))
}

/// What the reader must keep in mind.
pub(crate) fn cautions(page: &mut Page<'_>, a: &Assessment) -> io::Result<()> {
    page.heading("Cautions")?;
    a.cautions.iter().try_for_each(|caution| page.indented("  -", 4, caution))
}
