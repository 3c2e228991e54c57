//! Native charts of the curves that a reviewer looks at first.

use quantity::unit;
use rust_xlsxwriter::{
    Chart, ChartFormat, ChartLegendPosition, ChartLine, ChartLineDashType, ChartMarker, ChartType,
    Color, Worksheet, XlsxError,
};

use super::curves::{self, Curve, Curves, FIRST};
use super::page::Page;
use super::style::Styles;
use super::text::briefly;
use crate::Subject;

const NAME: &str = "Profiles";
/// Rows from one chart to the next.
const ROWS: u32 = 19;

/// Colours that differ in lightness; line types differ, too, so that colour never tells alone.
const LINES: [(u32, ChartLineDashType, f64); 6] = [
    (0x000B_3C5D, ChartLineDashType::Solid, 2.0),
    (0x00B3_4700, ChartLineDashType::Dash, 2.0),
    (0x003D_7A3D, ChartLineDashType::RoundDot, 2.0),
    (0x0070_4A9E, ChartLineDashType::DashDot, 1.75),
    (0x0059_5959, ChartLineDashType::LongDash, 1.5),
    (0x0000_0000, ChartLineDashType::SquareDot, 1.5),
];

/// One chart: its title and its curves, each with a short name.
struct Plan<'a> {
    title: String,
    series: Vec<(&'static str, &'a Curve<'a>)>,
}

/// The sheet.
pub fn sheet(
    subject: &Subject,
    curves: &Curves<'_>,
    styles: &Styles,
) -> Result<Worksheet, XlsxError> {
    let mut page = Page::new(subject, NAME, &[11.0; 13])?;
    page.title(
        "Profiles",
        "Drawn from the sheet Curves, which holds every curve as numbers.",
        styles,
    )?;
    let mut row = 3;
    let mut breaks = Vec::new();
    for (i, plan) in plans(subject, curves).iter().enumerate() {
        if i > 0 && i % 2 == 0 {
            breaks.push(row);
        }
        page.sheet.insert_chart(row, 0, &chart(plan, subject))?;
        row += ROWS;
    }
    page.sheet.set_page_breaks(&breaks)?;
    page.sheet.set_print_area(0, 0, row, 12)?;
    page.finish()
}

fn plans<'a>(subject: &Subject, curves: &'a Curves<'_>) -> Vec<Plan<'a>> {
    let mut plans = Vec::new();
    let mut plan = |title: String, wanted: &[(&'static str, String)]| {
        let series: Vec<_> =
            wanted.iter().filter_map(|(name, id)| Some((*name, curves.find(id)?))).collect();
        if !series.is_empty() {
            plans.push(Plan { title, series });
        }
    };
    let text = |s: &str| s.to_owned();
    plan(
        text("Pull by position of the head"),
        &[
            ("at the head, for the checks", text("pull.head-force")),
            ("at the rig", text("pull.rig-force")),
            ("at the head, to start after a stop", text("pull.restart-force")),
            ("at the head, expected friction", text("pull.head-force-expected")),
        ],
    );
    for (i, run) in subject.assessment.runs.iter().enumerate() {
        for (what, title) in [("rig", "Force on the machine"), ("string", "Force in the string")] {
            let id = |end: &str| format!("burst.force.{what}.{end}.{}", i + 1);
            plan(
                format!("{title} by place of the head, run {}", briefly(&run.name, 60)),
                &[("planning", id("planning")), ("high", id("high")), ("low", id("low"))],
            );
        }
    }
    plan(
        text("Largest joint angle by position of the head"),
        &[("joint angle", text("pull.joint-angle"))],
    );
    for stage in &subject.assessment.limits {
        let id = |what: &str| format!("fluid.{what}.{}", stage.id);
        plan(
            format!("Fluid against the ground, {}", stage.name),
            &[
                ("pressure of the fluid", id("pressure")),
                ("what it may press", id("allowed")),
                ("its column alone", id("column")),
            ],
        );
    }
    plan(text("Cover over the crown of the bore"), &[("cover", text("line.cover"))]);
    plan(text("Ground above the new barrel"), &[("cover", text("host.cover"))]);
    plan(
        text("Level of the bore axis"),
        &[("axis of the bore", text("line.level")), ("water level", text("ground.water-level"))],
    );
    plan(text("Level of the old main"), &[("axis of the old main", text("host.level"))]);
    plan(text("Settlement above the bore"), &[("settlement", text("ground.settlement"))]);
    for (i, run) in subject.assessment.runs.iter().enumerate() {
        plan(
            format!("Heave of the surface, run {}", briefly(&run.name, 60)),
            &[("heave", format!("burst.heave.{}", i + 1))],
        );
    }
    plans
}

fn chart(plan: &Plan<'_>, subject: &Subject) -> Chart {
    let mut chart = Chart::new(ChartType::ScatterStraight);
    chart.title().set_name(&plan.title);
    chart.title().set_font(rust_xlsxwriter::ChartFont::new().set_size(12).set_bold());
    let (mut from, mut to) = (f64::INFINITY, f64::NEG_INFINITY);
    let metre = unit::M.in_system(subject.system);
    for ((name, curve), (colour, dash, width)) in plan.series.iter().zip(LINES) {
        let (x, y, last) = (curve.places, curve.column, curve.last());
        let mut line = ChartLine::new();
        line.set_color(Color::RGB(colour)).set_dash_type(dash).set_width(width);
        chart
            .add_series()
            .set_name(*name)
            .set_categories((curves::NAME, FIRST, x, last, x))
            .set_values((curves::NAME, FIRST, y, last, y))
            .set_marker(ChartMarker::new().set_none())
            .set_format(ChartFormat::new().set_line(&line));
        for md in &curve.profile.md {
            from = from.min(metre.from_si(*md));
            to = to.max(metre.from_si(*md));
        }
    }
    let place = match subject.assessment.technique {
        "bursting" => "chainage",
        _ => "measured distance from the rig side",
    };
    let step = step(to - from);
    let mut grid = ChartLine::new();
    grid.set_color(Color::RGB(0x00D9_D9D9)).set_width(0.75);
    chart
        .x_axis()
        .set_name(&format!("{place}, {}", metre.symbol()))
        .set_num_format("0")
        .set_major_gridlines(true)
        .set_major_gridlines_line(&grid)
        .set_label_position(rust_xlsxwriter::ChartAxisLabelPosition::Low);
    if (to - from).is_finite() && to > from {
        chart
            .x_axis()
            .set_min((from / step).floor() * step)
            .set_max((to / step).ceil() * step)
            .set_major_unit(step);
    }
    let unit = plan.series.first().map_or("", |(_, c)| c.unit.symbol());
    chart
        .y_axis()
        .set_name(unit)
        .set_num_format("General")
        .set_major_gridlines(true)
        .set_major_gridlines_line(&grid);
    if plan.series.len() > 1 {
        chart.legend().set_position(ChartLegendPosition::Bottom);
    } else {
        chart.legend().set_hidden();
    }
    chart.set_width(1040).set_height(372).set_alt_text(&plan.title);
    chart
}

/// A round step that divides a length in about ten parts.
fn step(length: f64) -> f64 {
    let rough = (length / 10.0).max(1e-3);
    let power = 10f64.powf(rough.log10().floor());
    let factor = [1.0, 2.0, 5.0].into_iter().find(|f| f * power >= rough * 0.999).unwrap_or(10.0);
    factor * power
}
