use fluid::Criterion;
use quantity::{Pressure, unit};
use working::{Evidence, Source};

use super::limit_lines::limit_lines;
use super::pressure_lines::pressure_lines;
use crate::assessment::{Reading, Stage};
use crate::context::{Context, Missing};
use crate::ground_and_fluid::{
    BorePlace, Places, StagePlace, StageRun, in_words, stretches_in_words,
};
use crate::item::{About, Item};

/// Difference of the levels of the pits that is worth a note, m. Judgement.
const UNEQUAL: f64 = 1.0;
/// Diameters of bore up to which a pressure above the weight of the cover asks for attention.
// Judgement: below this a block of ground may be lifted before a cavity forms.
const SHALLOW: f64 = 10.0;

/// Pressure of the fluid against what the ground bears, where the margin is thinnest.
pub(super) fn check(
    c: &Context<'_>,
    id: &str,
    name: &str,
    stage: Stage,
    made: &Result<StageRun, Missing>,
) -> Item {
    let p = c.project;
    let about = About::new(
        super::id(id),
        format!("fluid against the ground, {name}"),
        stage,
        p.source_of("/factors/ground/limit_criterion"),
    );
    let (run, places) = match (made, &c.fluid().places) {
        (Ok(run), Ok(places)) => (run, places),
        (Err(missing), _) | (_, Err(missing)) => {
            return about.not_assessed(&[], missing.because.clone()).missing(&missing.keys);
        }
    };
    let Some((worst, at)) = run.worst.and_then(|i| Some((run.places.get(i)?, places.list.get(i)?)))
    else {
        let keys = ["/site/end_zone_entry", "/site/end_zone_exit"];
        return about.not_assessed(&keys, "the two end zones leave no stretch between them");
    };
    let Some(way) = run.setup.ways.get(worst.way) else {
        return about.not_assessed(&[], "the fluid has no way to a pit");
    };
    let kpa = |q: Pressure| Reading::new(q.si(), unit::KPA);
    let soil = places.soil(at).map_or("", |s| s.name.as_str());
    let acting = worst.pressure.total();
    let margin = worst.allowed() - acting;
    let because = format!(
        "at chainage {}, {} below ground in {soil}: {} of fluid up to the {} and {} of friction along {}; {}, so that {} are {}{}{}{}",
        at.chainage,
        at.cover(),
        worst.pressure.column,
        way.pit,
        worst.pressure.friction,
        if way.from_entry { at.md } else { p.line.length() - at.md },
        bears_words(worst),
        quantity::show_briefly(margin.si().abs(), unit::KPA),
        if margin.si() >= 0.0 { "left" } else { "missing" },
        tension_warning(worst.limits.get(Criterion::Tension), acting),
        exceeded_words(run, places),
        zone_words(run, places),
    );
    let lifts = acting > at.stress.total_vertical && at.cover() < run.setup.hole * SHALLOW;
    let refused = &c.fluid().refused_laws;
    let mut item = about
        .at_most(kpa(worst.pressure.total()), kpa(worst.allowed()), p.factors.attention, because)
        .at(at.md)
        .attend(lifts || !refused.is_empty())
        .worked(c.working(|w| {
            pressure_lines(c, &run.setup, way, at, worst.pressure, w);
            limit_lines(c, &run.setup, places, at, worst, w);
        }));
    item = item.note(
        "The classic form with a plastic zone of half or two thirds of the cover implies a bore that swells to several times its radius; most field studies found that it over-predicts. Strength, stiffness and stress at rest decide more than the choice of the zone.",
    );
    for note in notes(c, run, places, at, soil) {
        item = item.note(note);
    }
    item
}

/// What the ground bears, what may act, and why.
fn bears_words(worst: &StagePlace) -> String {
    if let Some(why) = worst.nothing {
        return format!("the ground bears nothing here: {why}");
    }
    let lifted = if worst.limits.uplift { "; the water lifts the ground" } else { "" };
    let limit = format!(
        "the ground is taken to bear {} ({}{lifted}), {} with a safety of {}",
        worst.limit,
        worst.criterion.meaning(),
        worst.limit / worst.safety,
        worst.safety
    );
    if worst.cap < worst.limit / worst.safety {
        return format!("{limit}, yet no more may act than {} for the weight above", worst.cap);
    }
    limit
}

/// Stretches outside the end zones on which the pressure exceeds what may act.
fn exceeded_words(run: &StageRun, places: &Places<'_>) -> String {
    match stretches_in_words(&run.exceeded(places, false)) {
        Some(words) => format!("; the pressure exceeds what may act {words}"),
        None => String::new(),
    }
}

/// A pressure beyond the tension of elastic ground is a warning line, not the limit.
fn tension_warning(tension: Option<Pressure>, acting: Pressure) -> String {
    match tension {
        Some(tension) if acting > tension => {
            format!("; above the {tension} at which elastic ground would crack")
        }
        _ => String::new(),
    }
}

/// The end zones apart: there fluid is expected at the surface.
fn zone_words(run: &StageRun, places: &Places<'_>) -> String {
    let worst = run.worst_in_zone.and_then(|i| Some((run.places.get(i)?, places.list.get(i)?)));
    let Some((place, at)) = worst else { return String::new() };
    let used = place.utilisation();
    if used <= 1.0 {
        let used = format!("{:.0} %", 100.0 * used);
        return format!("; in the end zones, left out here, at most {used} are used");
    }
    let stretches = stretches_in_words(&run.exceeded(places, true)).unwrap_or_default();
    format!(
        "; in the end zones, left out here, the pressure exceeds what may act {stretches}, most at chainage {}: fluid may reach the surface there",
        at.chainage
    )
}

fn notes(
    c: &Context<'_>,
    run: &StageRun,
    places: &Places<'_>,
    at: &BorePlace,
    soil: &str,
) -> Vec<String> {
    let mut notes = Vec::new();
    for way in &run.setup.ways {
        let laws: Vec<_> = way
            .losses
            .list
            .iter()
            .map(|l| {
                let apart = if l.law.used { "" } else { " (wrong range of shear, for comparison)" };
                let flow = if l.laminar { "" } else { ", not laminar" };
                format!(
                    "{} {}{flow}{apart}",
                    in_words(l.law.model),
                    quantity::show_briefly(l.gradient.si(), unit::PA_PER_M)
                )
            })
            .collect();
        notes.push(format!(
            "Loss along the way to the {} by flow law: {}. The checks take {}.",
            way.pit,
            laws.join("; "),
            way.losses.chosen().map_or("none", |l| in_words(l.law.model))
        ));
    }
    let remarks = run.setup.ways.iter().flat_map(|w| &w.losses.list);
    let mut remarks: Vec<_> = remarks.filter_map(|l| l.law.remark).collect();
    remarks.dedup();
    notes.extend(remarks.into_iter().map(|r| format!("Flow law: {r}.")));
    if c.fluid_outlet_open(&run.setup) {
        notes.push("Both pits were computed as outlets and the higher pressure is taken: give outlet once returns are observed.".to_owned());
    }
    notes.extend(c.fluid().refused_laws.iter().map(|why| {
        format!(
            "{}: the largest of the other laws is taken, which may be too little.",
            capital(why)
        )
    }));
    for (weaker, what) in at.weaker.iter().zip(["Weaker", "Open"]) {
        let Some(weaker) = weaker else { continue };
        let soils = places.model.soils();
        let name = soils.get(weaker.stress.soil).map_or("", |s| s.name.as_str());
        notes.push(format!("{what} ground ({name}) begins {} from the axis.", weaker.distance));
    }
    if let Some((from, to)) = places.above {
        notes.push(format!(
            "Between {from} and {to} along the bore the axis lies above the ground of the line: nothing is computed there."
        ));
    }
    let line = &c.project.line;
    let apart = line.sample(0.0).level - line.sample(line.length().si()).level;
    if apart.abs().si() > UNEQUAL {
        let higher = if apart.si() > 0.0 { "entry" } else { "exit" };
        notes.push(format!(
            "The {higher} pit lies {} higher: fluid that stands there runs out of the lower pit, and may drain the bore.",
            apart.abs()
        ));
    }
    if acting_below_water(run, places) {
        notes.push("At places the fluid presses less than the water in the ground: water may enter the bore and thin the fluid.".to_owned());
    }
    if places.soil(at).is_some_and(|s| s.kind.is_open()) {
        notes.push(format!(
            "{soil} is open: pressure is not contained in it; loss is a matter of seepage, of fluid loss and gels."
        ));
    }
    if !at.known {
        notes.push(
            "No boring reaches down to the axis here: the lowest stratum was taken to go on."
                .to_owned(),
        );
    }
    if let Some((by, chainage)) = places.raised {
        notes.push(format!(
            "At chainage {chainage} the ground line lies {by} above the ground of the borings: what lies there is taken as the uppermost stratum."
        ));
    }
    notes
}

/// Whether the fluid presses less than the pore water somewhere.
fn acting_below_water(run: &StageRun, places: &Places<'_>) -> bool {
    run.places.iter().zip(&places.list).any(|(p, at)| p.pressure.total() < at.stress.pore)
}

fn capital(text: &str) -> String {
    let mut rest = text.chars();
    rest.next().map_or_else(String::new, |c| c.to_uppercase().chain(rest).collect())
}

/// Source of the annular loss.
pub(super) const SLOT: Source =
    Source::new("laminar flow of a yield fluid in a slot, exact", Evidence::Derived);
