//! The bore line: described in exactly one of three ways.

use ground::GroundLine;
use line::{Element, LevelDesign, Line, PlanBend, Start, SurveyStation};
use quantity::{Angle, Length, unit};

use super::line_faults::report;
use crate::context::{Ask, Context};
use crate::fields::FROM_VERTICAL;
use crate::given::Given;
use crate::model::LineDesign;
use crate::tree::{Record, Tree};
use crate::value::Reading;
use crate::wording::shown;

/// Keys that belong to a line by levels and radii alone.
const LEVEL_KEYS: [&str; 6] =
    ["run", "exit_angle", "entry_radius", "exit_radius", "lowest_level", "exit_level"];

/// What the file says of the line; single values also where no line can be made of them, so that
/// other faults need not wait until the line is right.
#[derive(Debug, Default)]
pub(super) struct LineOfFile {
    pub(super) built: Option<(Line, LineDesign)>,
    /// Horizontal length from entry to exit.
    pub(super) run: Option<Length>,
    /// Least and greatest length along the axis.
    pub(super) length: Option<(Length, Length)>,
    pub(super) entry: End,
    pub(super) exit: End,
}

/// One end of the bore.
#[derive(Debug, Default, Clone, Copy)]
pub(super) struct End {
    pub(super) level: Option<Length>,
    /// Angle from the horizontal, positive where the bore lies below the end.
    pub(super) angle: Option<Angle>,
}

impl LineOfFile {
    fn of(line: Line, design: LineDesign) -> Self {
        let (start, end) = (line.sample(0.0), line.sample(line.length().si()));
        Self {
            run: Some(line.run()),
            length: Some((line.length(), line.length())),
            entry: End {
                level: Some(start.level),
                angle: Some(Angle::from_si(-start.inclination.si())),
            },
            exit: End { level: Some(end.level), angle: Some(end.inclination) },
            built: Some((line, design)),
        }
    }

    /// Field of the file that sets the level of the exit.
    pub(super) fn exit_key(&self) -> &'static str {
        match self.built {
            Some((_, LineDesign::Elements { .. })) => "element",
            Some((_, LineDesign::Survey)) => "survey",
            _ => "exit_level",
        }
    }
}

pub(super) fn build(tree: &Tree, cx: &mut Context<'_>, ground: Option<&GroundLine>) -> LineOfFile {
    let Some(record) = tree.one("line") else { return LineOfFile::default() };
    let (bends, elements): (Vec<_>, Vec<_>) =
        (tree.all("line.bend").collect(), tree.all("line.element").collect());
    let survey = cx.ask(record).has("survey");
    if !record.present {
        return LineOfFile::default();
    }
    match (survey, elements.is_empty()) {
        (true, true) => {
            refuse_others(cx, record, &bends, "by a survey", &["entry_angle", "azimuth"]);
            by_survey(cx, record, ground).unwrap_or_default()
        }
        (false, false) => {
            refuse_others(cx, record, &bends, "by [[line.element]]", &[]);
            by_elements(cx, record, &elements, ground).unwrap_or_default()
        }
        (true, false) => {
            let hint = "keep the survey or the [[line.element]] tables and take the other out";
            cx.ask(record).refuse("survey", "the line is described by [[line.element]] too", hint);
            LineOfFile::default()
        }
        (false, true) => by_levels(cx, record, &bends, ground),
    }
}

/// Notes every key of another way to describe the line.
fn refuse_others(
    cx: &mut Context<'_>,
    record: &Record,
    bends: &[&Record],
    way: &str,
    more: &[&str],
) {
    let reason = format!("the line is described {way}, from which this follows");
    let hint = "describe the line in one way only: take this out, or the other description";
    for key in LEVEL_KEYS.iter().chain(more) {
        cx.ask(record).refuse(key, &reason, hint);
    }
    for bend in bends {
        let message = format!("[[line.bend]] cannot be given here: the line is described {way}");
        cx.report.error("conflict", &bend.place, message).hint(hint);
    }
}

fn by_levels(
    cx: &mut Context<'_>,
    record: &Record,
    bends: &[&Record],
    ground: Option<&GroundLine>,
) -> LineOfFile {
    let mut ask = cx.ask(record);
    for key in LEVEL_KEYS.into_iter().filter(|k| *k != "exit_level").chain(["entry_angle"]) {
        ask.require(key, "to describe the line by levels and radii");
    }
    let run = ask.number("run").map(|g| g.value);
    let entry_level = ask.number_or("entry_level", level(ground, 0.0));
    let exit_level = ask.number_or("exit_level", run.and_then(|run| level(ground, run)));
    let [entry_angle, exit_angle, entry_radius, exit_radius, lowest_level] =
        ["entry_angle", "exit_angle", "entry_radius", "exit_radius", "lowest_level"]
            .map(|key| ask.number(key).map(|g| g.value));
    let azimuth = ask.number_or_default("azimuth");
    let plan: Vec<Option<PlanBend>> = bends.iter().map(|bend| plan_bend(cx, bend)).collect();
    let known = LineOfFile {
        built: None,
        run: run.map(Length::from_si),
        // No part of such a line is steeper than its ends.
        length: run.zip(entry_angle).zip(exit_angle).map(|((run, entry), exit)| {
            (Length::from_si(run), Length::from_si(run / entry.max(exit).cos()))
        }),
        entry: End {
            level: entry_level.map(Length::from_si),
            angle: entry_angle.map(Angle::from_si),
        },
        exit: End { level: exit_level.map(Length::from_si), angle: exit_angle.map(Angle::from_si) },
    };
    let design = || {
        Some(LevelDesign {
            entry_level: Length::from_si(entry_level?),
            exit_level: Length::from_si(exit_level?),
            run: Length::from_si(run?),
            entry_angle: Angle::from_si(entry_angle?),
            exit_angle: Angle::from_si(exit_angle?),
            entry_radius: Length::from_si(entry_radius?),
            exit_radius: Length::from_si(exit_radius?),
            lowest_level: Length::from_si(lowest_level?),
            azimuth: Angle::from_si(azimuth?),
            bends: plan.into_iter().collect::<Option<_>>()?,
        })
    };
    let Some(design) = design() else { return known };
    match Line::from_level(&design) {
        Ok(line) => LineOfFile::of(line, LineDesign::Level(design)),
        Err(faults) => {
            report(cx, record, bends, faults);
            known
        }
    }
}

/// Level of the ground where a bore begins or ends. A ground line that does not reach there is an
/// error of its own; its nearest point then stands in, so that the line is looked at as well.
fn level(ground: Option<&GroundLine>, chainage: f64) -> Option<f64> {
    ground.map(|g| g.level_extended(Length::from_si(chainage)).si())
}

fn plan_bend(cx: &mut Context<'_>, record: &Record) -> Option<PlanBend> {
    let mut ask = cx.ask(record);
    let (start, radius, angle) = (ask.number("start"), ask.number("radius"), ask.number("angle"));
    Some(PlanBend {
        start_chainage: Length::from_si(start?.value),
        radius: Length::from_si(radius?.value),
        angle: Angle::from_si(angle?.value),
    })
}

fn by_elements(
    cx: &mut Context<'_>,
    record: &Record,
    elements: &[&Record],
    ground: Option<&GroundLine>,
) -> Option<LineOfFile> {
    let mut ask = cx.ask(record);
    ask.require("entry_angle", "to describe the line by [[line.element]]");
    let entry_level = ask.number_or("entry_level", level(ground, 0.0));
    let angle = ask.number("entry_angle");
    let azimuth = ask.number_or_default("azimuth");
    let parts: Vec<Option<Element>> = elements.iter().map(|e| element(&mut cx.ask(e))).collect();
    let start = Start {
        level: Length::from_si(entry_level?),
        inclination: Angle::from_si(-angle?.value),
        azimuth: Angle::from_si(azimuth?),
    };
    let parts: Vec<Element> = parts.into_iter().collect::<Option<_>>()?;
    match Line::from_elements(start, &parts) {
        Ok(line) => Some(LineOfFile::of(line, LineDesign::Elements { start, elements: parts })),
        Err(faults) => {
            report(cx, record, elements, faults);
            None
        }
    }
}

fn element(ask: &mut Ask<'_, '_, '_>) -> Option<Element> {
    let arc = ["radius", "turn", "toward"];
    let is_arc = arc.map(|key| ask.has(key)).contains(&true);
    if ask.has("length") {
        for key in arc {
            let hint = "give length for a tangent, or radius, turn and toward for an arc";
            ask.refuse(key, "the element is a tangent, because length is given", hint);
        }
        let length = Length::from_si(ask.number("length")?.value);
        return (!is_arc).then_some(Element::Straight { length });
    }
    if !is_arc {
        ask.require("length", "for a tangent (radius, turn and toward for an arc)");
        return None;
    }
    for key in arc {
        ask.require(key, "for an arc");
    }
    let (radius, turn) = (ask.number("radius"), ask.number("turn"));
    let toolface = match ask.reading("toward")?.value {
        Reading::Number(angle) => Angle::from_si(angle),
        Reading::Word(word) => Angle::degrees(match word {
            "right" => 90.0,
            "down" => 180.0,
            "left" => 270.0,
            _ => 0.0,
        }),
        _ => return None,
    };
    let (radius, turn) = (Length::from_si(radius?.value), Angle::from_si(turn?.value));
    Some(Element::Arc { radius, turn, toolface })
}

fn by_survey(
    cx: &mut Context<'_>,
    record: &Record,
    ground: Option<&GroundLine>,
) -> Option<LineOfFile> {
    let mut ask = cx.ask(record);
    let entry_level = ask.number_or("entry_level", level(ground, 0.0));
    let Given { value: Reading::Rows(rows), .. } = ask.reading("survey")? else { return None };
    let stations: Vec<SurveyStation> = rows
        .iter()
        .filter_map(|row| match row.as_slice() {
            [md, inclination, azimuth] => Some(SurveyStation {
                md: Length::from_si(md.value),
                inclination: Angle::from_si(inclination.value),
                azimuth: Angle::from_si(azimuth.value),
            }),
            _ => None,
        })
        .collect();
    if !goes_down(cx, &rows) {
        return None;
    }
    let start = glam::DVec3::new(0.0, 0.0, entry_level?);
    match Line::from_survey(start, &stations) {
        Ok(line) => Some(LineOfFile::of(line, LineDesign::Survey)),
        Err(faults) => {
            report(cx, record, &[], faults);
            None
        }
    }
}

/// The first station must point downwards; anything else is a mistake of the sign or of the
/// direction that angles are counted from.
fn goes_down(cx: &mut Context<'_>, rows: &[Vec<Given<f64>>]) -> bool {
    /// From here on an inclination may have been counted from the vertical.
    const STEEP: f64 = std::f64::consts::FRAC_PI_3;
    let Some([_, first, _]) = rows.first().map(Vec::as_slice) else { return true };
    if first.value < 0.0 {
        return true;
    }
    let found = shown(first.value, unit::DEG);
    let how = if first.value > 0.0 { "rises" } else { "is level" };
    let hint = if first.value >= STEEP {
        FROM_VERTICAL
    } else {
        "write a minus before the inclinations on the way down; the first station is the entry"
    };
    cx.report
        .error(
            "rises_at_entry",
            &first.place,
            format!(
                "the bore {how} at the entry: inclination is measured from the horizontal and is \
                 negative downwards"
            ),
        )
        .found(found)
        .allowed("less than 0 at the first station")
        .hint(hint);
    false
}
