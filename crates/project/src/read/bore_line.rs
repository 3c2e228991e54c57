//! The bore line: described in exactly one of three ways.

use line::{Element, Field, LevelDesign, Line, LineError, PlanBend, Start, SurveyStation};
use quantity::{Angle, Length};

use crate::context::{Ask, Context};
use crate::diagnostic::Place;
use crate::given::Given;
use crate::model::LineDesign;
use crate::tree::{Record, Tree};
use crate::value::Reading;

/// Keys that belong to a line by levels and radii alone.
const LEVEL_KEYS: [&str; 6] =
    ["run", "exit_angle", "entry_radius", "exit_radius", "lowest_level", "exit_level"];

/// A line with what other checks need to know of it.
#[derive(Debug)]
pub(super) struct LineOfFile {
    pub(super) line: Line,
    pub(super) design: LineDesign,
}

/// Level of the ground at the ends, where the file gives a ground line that reaches there.
pub(super) trait GroundLevel {
    fn level(&self, chainage: f64) -> Option<f64>;
}

pub(super) fn build(
    tree: &Tree,
    cx: &mut Context<'_>,
    ground: &impl GroundLevel,
) -> Option<LineOfFile> {
    let record = tree.one("line")?;
    let (bends, elements): (Vec<_>, Vec<_>) =
        (tree.all("line.bend").collect(), tree.all("line.element").collect());
    let survey = cx.ask(record).has("survey");
    if !record.present {
        return None;
    }
    match (survey, elements.is_empty()) {
        (true, true) => {
            refuse_others(cx, record, &bends, "by a survey", &["entry_angle", "azimuth"]);
            by_survey(cx, record, ground)
        }
        (false, false) => {
            refuse_others(cx, record, &bends, "by [[line.element]]", &[]);
            by_elements(cx, record, &elements, ground)
        }
        (true, false) => {
            let hint = "keep the survey or the [[line.element]] tables and take the other out";
            cx.ask(record).refuse("survey", "the line is described by [[line.element]] too", hint);
            None
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
    ground: &impl GroundLevel,
) -> Option<LineOfFile> {
    let mut ask = cx.ask(record);
    for key in LEVEL_KEYS.into_iter().filter(|k| *k != "exit_level").chain(["entry_angle"]) {
        ask.require(key, "to describe the line by levels and radii");
    }
    let run = ask.number("run").map(|g| g.value);
    let entry_level = ask.number_or("entry_level", ground.level(0.0));
    let exit_level = ask.number_or("exit_level", run.and_then(|run| ground.level(run)));
    let (entry_angle, exit_angle) = (ask.number("entry_angle"), ask.number("exit_angle"));
    let (entry_radius, exit_radius) = (ask.number("entry_radius"), ask.number("exit_radius"));
    let lowest_level = ask.number("lowest_level");
    let azimuth = ask.number_or_default("azimuth");
    let plan: Vec<Option<PlanBend>> = bends.iter().map(|bend| plan_bend(cx, bend)).collect();
    let design = LevelDesign {
        entry_level: Length::from_si(entry_level?),
        exit_level: Length::from_si(exit_level?),
        run: Length::from_si(run?),
        entry_angle: Angle::from_si(entry_angle?.value),
        exit_angle: Angle::from_si(exit_angle?.value),
        entry_radius: Length::from_si(entry_radius?.value),
        exit_radius: Length::from_si(exit_radius?.value),
        lowest_level: Length::from_si(lowest_level?.value),
        azimuth: Angle::from_si(azimuth?),
        bends: plan.into_iter().collect::<Option<_>>()?,
    };
    match Line::from_level(&design) {
        Ok(line) => Some(LineOfFile { line, design: LineDesign::Level(design) }),
        Err(faults) => {
            report(cx, record, bends, faults);
            None
        }
    }
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
    ground: &impl GroundLevel,
) -> Option<LineOfFile> {
    let mut ask = cx.ask(record);
    ask.require("entry_angle", "to describe the line by [[line.element]]");
    let level = ask.number_or("entry_level", ground.level(0.0));
    let angle = ask.number("entry_angle");
    let azimuth = ask.number_or_default("azimuth");
    let parts: Vec<Option<Element>> = elements.iter().map(|e| element(&mut cx.ask(e))).collect();
    let start = Start {
        level: Length::from_si(level?),
        inclination: Angle::from_si(-angle?.value),
        azimuth: Angle::from_si(azimuth?),
    };
    let parts: Vec<Element> = parts.into_iter().collect::<Option<_>>()?;
    match Line::from_elements(start, &parts) {
        Ok(line) => Some(LineOfFile { line, design: LineDesign::Elements }),
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
    ground: &impl GroundLevel,
) -> Option<LineOfFile> {
    let mut ask = cx.ask(record);
    let level = ask.number_or("entry_level", ground.level(0.0));
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
    let start = glam::DVec3::new(0.0, 0.0, level?);
    match Line::from_survey(start, &stations) {
        Ok(line) => Some(LineOfFile { line, design: LineDesign::Survey }),
        Err(faults) => {
            report(cx, record, &[], faults);
            None
        }
    }
}

/// Notes the faults of a line, each at the value to look at first.
fn report(cx: &mut Context<'_>, record: &Record, parts: &[&Record], faults: Vec<LineError>) {
    for fault in faults {
        let place = place_of(record, parts, fault.field());
        let diagnostic = cx.report.error(fault.code(), &place, fault.to_string());
        if let LineError::OutOfRange { found, allowed, .. } = &fault {
            diagnostic.found(found.as_str()).allowed(*allowed);
        }
        if let Some(hint) = hint(&fault) {
            diagnostic.hint(hint);
        }
    }
}

fn hint(fault: &LineError) -> Option<&'static str> {
    Some(match fault {
        LineError::CurveNeedsDepth { .. } => {
            "lower lowest_level, or make the radius or the angle of this end smaller"
        }
        LineError::LevelPartShort { .. } => {
            "lengthen run, steepen the angles, make the radii smaller, or raise lowest_level"
        }
        LineError::LevelPartAboveEnd { .. } => {
            "levels count upwards: lowest_level must lie below entry_level and exit_level"
        }
        LineError::NeverReachesDepth { .. } => "give an angle greater than 0",
        LineError::NotRising { .. } => "put the stations in the order of drilling, each once",
        LineError::TooFew { .. } => "a line needs more than that",
        _ => return None,
    })
}

/// Where a value of the line stands in the file.
fn place_of(record: &Record, parts: &[&Record], field: Option<Field>) -> Place {
    let part = |i: usize, key: &str| {
        parts.get(i).map_or_else(|| record.place.clone(), |p| p.place_of(key))
    };
    let cell = |row: usize, column: usize| match record.entry("survey") {
        Some(entry) => match &entry.reading {
            Some(Reading::Rows(rows)) => rows
                .get(row)
                .and_then(|r| r.get(column))
                .map_or_else(|| entry.place.clone(), |c| c.place.clone()),
            _ => entry.place.clone(),
        },
        None => record.place.clone(),
    };
    match field {
        None => record.place.clone(),
        Some(Field::EntryLevel | Field::EntryDepth | Field::StartPosition) => {
            record.place_of("entry_level")
        }
        Some(Field::ExitLevel | Field::ExitDepth) => record.place_of("exit_level"),
        Some(Field::LowestLevel) => record.place_of("lowest_level"),
        Some(Field::Run) => record.place_of("run"),
        Some(Field::EntryAngle | Field::StartInclination) => record.place_of("entry_angle"),
        Some(Field::ExitAngle) => record.place_of("exit_angle"),
        Some(Field::EntryRadius) => record.place_of("entry_radius"),
        Some(Field::ExitRadius) => record.place_of("exit_radius"),
        Some(Field::Azimuth) => record.place_of("azimuth"),
        Some(Field::BendStart(i)) => part(i, "start"),
        Some(Field::BendRadius(i)) => part(i, "radius"),
        Some(Field::BendAngle(i)) => part(i, "angle"),
        Some(Field::Elements) => record.place.clone(),
        Some(Field::ElementLength(i)) => part(i, "length"),
        Some(Field::ElementRadius(i)) => part(i, "radius"),
        Some(Field::ElementTurn(i)) => part(i, "turn"),
        Some(Field::ElementToolface(i)) => part(i, "toward"),
        Some(Field::Stations) => record.place_of("survey"),
        Some(Field::StationMd(i)) => cell(i, 0),
        Some(Field::StationInclination(i)) => cell(i, 1),
        Some(Field::StationAzimuth(i)) => cell(i, 2),
    }
}
