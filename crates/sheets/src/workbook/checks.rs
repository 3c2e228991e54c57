//! The first sheet: verdict, every check with its values as formulas, and how to read the workbook.

use assess::{Check, Explanation, Reading, Sense, Status};
use project::Design;
use quantity::unit;
use rust_xlsxwriter::{
    Color, ConditionalFormatText, ConditionalFormatTextRule, Format, Url, Worksheet, XlsxError,
};
use working::Formula;
use working::expression::{Node, evaluate, read};

use super::formula::of_node;
use super::note;
use super::page::{Page, cell, exact};
use super::style::{Styles, as_read, digits};
use super::workings::{Block, Workings};
use crate::Subject;

/// Name of the sheet.
pub const NAME: &str = "Checks";
/// Row of the first check.
pub const FIRST: u32 = 8;
const THRESHOLD: (u32, u16) = (5, 6);
const VALUE: u16 = 2;
const LIMIT: u16 = 4;
const USED: u16 = 6;
/// Agreement that is asked of a formula before it stands in place of a number.
const AGREES: f64 = 1e-9;
/// A limit that is reached exactly is met; this much is rounding, as in the checks.
const MET: f64 = 1e-9;

/// The sheet.
pub fn sheet(
    subject: &Subject,
    workings: &Workings<'_>,
    styles: &Styles,
) -> Result<Worksheet, XlsxError> {
    let widths = [25.0, 34.0, 11.0, 3.0, 11.0, 8.0, 9.0, 14.0, 10.0, 42.0, 17.0, 9.0];
    let mut page = Page::new(subject, NAME, &widths)?;
    heading(&mut page, subject, styles)?;
    let bursting = subject.assessment.technique == "bursting";
    let metre = unit::M.in_system(subject.system).symbol();
    let place = format!(">{}, {metre}", if bursting { "chainage" } else { "at md" });
    let names = [
        "check", "what", ">value", "", ">limit", "unit", ">used", "status", &place, "basis",
        "evidence", "working",
    ];
    page.head(FIRST - 1, &names, styles)?;
    let mut row = FIRST;
    for explanation in &subject.explanations {
        line(&mut page, row, explanation, (subject, workings), styles)?;
        row += 1;
    }
    page.filter(FIRST - 1, row.saturating_sub(1))?;
    colours(&mut page, row)?;
    note::write(&mut page, row + 1, subject, styles)?;
    page.finish()
}

fn heading(page: &mut Page, subject: &Subject, styles: &Styles) -> Result<(), XlsxError> {
    let (a, last) = (&subject.assessment, page.last());
    page.across(0, (0, last), &a.crossing.name, &styles.title.clone().set_text_wrap())?;
    page.across(1, (0, last), a.crossing.note.as_deref().unwrap_or(""), &styles.words)?;
    page.across(2, (0, last), &a.verdict.sentence, &styles.strong)?;
    let given = |text: Option<String>| text.unwrap_or_else(|| "not given".to_owned());
    let issue = &subject.issue;
    let governing = subject.governing().map_or_else(
        || "none".to_owned(),
        |c| match c.share_used() {
            Some(share) => format!("{}: {}, {share} used", c.id, c.title),
            None => format!("{}: {}", c.id, c.title),
        },
    );
    page.words(3, 0, "governing check", &styles.strong)?;
    page.across(3, (1, last), &governing, &styles.words)?;
    page.words(4, 0, "issue", &styles.strong)?;
    let issued = format!(
        "date {}; revision {}; author {}; design file {}; program version {}",
        given(issue.date.map(|d| d.to_string())),
        given(issue.revision.clone()),
        given(issue.author.clone()),
        subject.file,
        a.version
    );
    page.across(4, (1, last), &issued, &styles.words)?;
    page.across(
        5,
        (0, THRESHOLD.1 - 1),
        "share used from which a check asks for attention",
        &styles.strong,
    )?;
    let (attention, format) =
        (attention(subject.design), styles.input.clone().set_num_format("0.0%"));
    page.number(THRESHOLD.0, THRESHOLD.1, attention, &format)?;
    page.across(
        5,
        (THRESHOLD.1 + 1, page.last()),
        "   How to read this workbook: below the table.",
        &styles.words,
    )
}

fn attention(design: &Design) -> f64 {
    match design {
        Design::Crossing(p) => p.factors.attention,
        Design::Renewal(r) => r.factors.attention,
    }
}

/// The status in a sign and a word.
pub fn status(check: &Check) -> &'static str {
    word(check.status)
}

const fn word(status: Status) -> &'static str {
    match status {
        Status::Pass => "✓ pass",
        Status::Attention => "! attention",
        Status::Fail => "✗ fail",
        Status::NotAssessed => "– not assessed",
    }
}

fn line(
    page: &mut Page,
    row: u32,
    explanation: &Explanation,
    (subject, workings): (&Subject, &Workings<'_>),
    styles: &Styles,
) -> Result<(), XlsxError> {
    let check = &explanation.check;
    let block = workings.block(&check.id);
    let parts = block.and_then(|b| Parts::of(b, check));
    page.words(row, 0, &check.id, &styles.cell)?;
    page.words(row, 1, &check.title, &styles.cell)?;
    let unit = check.demand.or(check.limit).map_or(unit::ONE, |r| r.unit);
    for (column, reading, formula) in [
        (VALUE, check.demand, parts.as_ref().map(|p| &p.demand)),
        (LIMIT, check.limit, parts.as_ref().map(|p| &p.limit)),
    ] {
        let Some(reading) = reading else {
            page.words(row, column, "–", &styles.number)?;
            continue;
        };
        let reading = Reading::new(
            reading.value,
            if reading.unit.kind() == unit.kind() { unit } else { reading.unit },
        );
        let shown = reading.unit.in_system(subject.system).from_si(reading.value);
        match formula.filter(|_| shown.is_finite()) {
            Some(from) => {
                let formula = as_read(from, reading.unit, subject.system);
                page.formula(
                    row,
                    column,
                    &formula,
                    exact(shown),
                    &digits(&styles.number, shown, 4),
                )?;
            }
            None => page.number(row, column, shown, &digits(&styles.fixed, shown, 4))?,
        }
    }
    let sense = if check.sense == Sense::AtMost { "≤" } else { "≥" };
    page.words(row, 3, if check.limit.is_some() { sense } else { "" }, &styles.cell)?;
    page.words(row, 5, unit.in_system(subject.system).symbol(), &styles.unit)?;
    let live = used(page, row, check, styles)?;
    outcome(page, row, check, (live, attention(subject.design)), styles)?;
    match check.at {
        Some(at) => {
            let at = unit::M.in_system(subject.system).from_si(at);
            page.number(row, 8, at, &digits(&styles.number, at, 4))?;
        }
        None => page.words(row, 8, "", &styles.cell)?,
    }
    page.words(row, 9, &check.basis.text, &styles.unit)?;
    page.words(row, 10, check.basis.evidence.label(), &styles.cell)?;
    if let Some(block) = block {
        let link = Url::new(format!("internal:'{}'!A{}", block.sheet, block.row + 1))
            .set_text(block.sheet);
        page.sheet.write_url_with_format(row, 11, link, &styles.link)?;
    }
    Ok(())
}

/// What acts and what is allowed, as formulas on the working.
struct Parts {
    demand: String,
    limit: String,
}

impl Parts {
    /// Read off the line of the working that divides one by the other; `None` where the working has no such line.
    fn of(block: &Block<'_>, check: &Check) -> Option<Self> {
        let (utilisation, working) = (check.utilisation?, &block.explanation.working);
        let (demand, limit) = (check.demand?, check.limit?);
        let near = |a: f64, b: f64| (a - b).abs() <= AGREES * a.abs().max(b.abs());
        working.steps.iter().rev().filter(|s| near(s.value, utilisation)).find_map(|step| {
            let Formula::Expression(text) = &step.formula else { return None };
            let Ok(Node::Binary('/', above, below)) = read(text) else { return None };
            let (acts, allowed) = match check.sense {
                Sense::AtMost => (above, below),
                Sense::AtLeast => (below, above),
            };
            let part = |node: &Node, value: f64| {
                let text = node.to_string().replace('·', "*");
                let lookup = |symbol: &str| working.step(symbol).map(|s| s.value);
                let found = evaluate(&text, lookup).ok()?;
                let formula = of_node(node, &|symbol| block.cell_from_afar(symbol))?;
                let single = matches!(node, Node::Symbol(_));
                near(found, value).then(|| if single { formula } else { format!("({formula})") })
            };
            Some(Self { demand: part(&acts, demand.value)?, limit: part(&allowed, limit.value)? })
        })
    }
}

/// The share used: a formula on value and limit where it gives ours, else a number or a word. Whether it is live.
fn used(page: &mut Page, row: u32, check: &Check, styles: &Styles) -> Result<bool, XlsxError> {
    let format = if check.rule { &styles.fixed } else { &styles.number };
    let format = format.clone().set_num_format("0.0%");
    let Some(utilisation) = check.utilisation else {
        page.words(row, USED, "–", &styles.number)?;
        return Ok(false);
    };
    let (value, limit) = (cell(row, VALUE), cell(row, LIMIT));
    let ratio = match (check.demand, check.limit) {
        (Some(d), Some(l)) if d.unit.kind() == l.unit.kind() => {
            ratio(check.sense, d.value, l.value)
        }
        _ => None,
    };
    if !ratio.is_some_and(|r| (r - utilisation).abs() <= AGREES * utilisation.abs()) {
        page.number(row, USED, utilisation, &styles.fixed.clone().set_num_format("0.0%"))?;
        return Ok(false);
    }
    let formula = match check.sense {
        Sense::AtMost => format!("IF({value}<=0,0,{value}/{limit})"),
        Sense::AtLeast => format!("IF(AND({limit}<=0,{value}>={limit}),0,{limit}/{value})"),
    };
    page.formula(row, USED, &formula, exact(utilisation), &format)?;
    Ok(true)
}

fn ratio(sense: Sense, value: f64, limit: f64) -> Option<f64> {
    let ratio = match sense {
        Sense::AtMost if value <= 0.0 => 0.0,
        Sense::AtMost => value / limit,
        Sense::AtLeast if limit <= 0.0 && value >= limit => 0.0,
        Sense::AtLeast => limit / value,
    };
    ratio.is_finite().then_some(ratio)
}

/// The status: a formula where the share used alone gives it, else words.
fn outcome(
    page: &mut Page,
    row: u32,
    check: &Check,
    (live, attention): (bool, f64),
    styles: &Styles,
) -> Result<(), XlsxError> {
    let by_share = check.utilisation.map(|u| match u {
        u if u > 1.0 + MET => Status::Fail,
        u if check.rule || u < attention => Status::Pass,
        _ => Status::Attention,
    });
    if !live || by_share != Some(check.status) {
        return page.words(row, 7, word(check.status), &styles.status);
    }
    let used = cell(row, USED);
    let threshold = rust_xlsxwriter::utility::row_col_to_cell_absolute(THRESHOLD.0, THRESHOLD.1);
    let (pass, attend, fail) = (word(Status::Pass), word(Status::Attention), word(Status::Fail));
    let met = if check.rule {
        format!("\"{pass}\"")
    } else {
        format!("IF({used}<{threshold},\"{pass}\",\"{attend}\")")
    };
    let formula = format!("IF({used}>1.000000001,\"{fail}\",{met})");
    page.formula(row, 7, &formula, word(check.status), &styles.status)
}

/// Colours beside the words; sign and word tell alone.
fn colours(page: &mut Page, end: u32) -> Result<(), XlsxError> {
    for (sign, colour) in
        [("✗", 0x00F6_D5D0), ("!", 0x00FB_EBC8), ("–", 0x00E3_E3E3), ("✓", 0x00DF_EFDF)]
    {
        let rule = ConditionalFormatText::new()
            .set_rule(ConditionalFormatTextRule::BeginsWith(sign.to_owned()))
            .set_format(Format::new().set_background_color(Color::RGB(colour)));
        page.sheet.add_conditional_format(FIRST, 7, end.saturating_sub(1).max(FIRST), 7, &rule)?;
    }
    Ok(())
}
