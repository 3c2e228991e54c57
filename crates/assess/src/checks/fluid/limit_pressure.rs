use fluid::Criterion;
use quantity::{Length, Pressure, unit};
use working::{Evidence, Source};

use super::limit_lines::limit_lines;
use super::pressure_lines::pressure_lines;
use crate::assessment::{Reading, Stage};
use crate::context::{Context, Missing};
use crate::ground_and_fluid::{Places, StageRun, in_words};
use crate::item::{About, Item};

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
    let margin = worst.allowed() - worst.pressure.total();
    let because = format!(
        "{}, {} below ground in {soil}: {} of fluid up to the {} and {} of friction along {}; the ground is taken to bear {} ({}), {} with a safety of {}, so that {} are {}{}{}",
        place_words(at.chainage),
        at.cover(),
        worst.pressure.column,
        way.pit,
        worst.pressure.friction,
        if way.from_entry { at.md } else { p.line.length() - at.md },
        worst.limit,
        worst.criterion.meaning(),
        worst.allowed(),
        worst.safety,
        quantity::show_briefly(margin.si().abs(), unit::KPA),
        if margin.si() >= 0.0 { "left" } else { "missing" },
        tension_warning(worst.limits.get(Criterion::Tension), worst.pressure.total()),
        zone_words(run, places),
    );
    let mut item = about
        .at_most(kpa(worst.pressure.total()), kpa(worst.allowed()), p.factors.attention, because)
        .at(at.md)
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

fn place_words(chainage: Length) -> String {
    format!("at chainage {chainage}")
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
    format!(
        "; in the end zones, left out here, the pressure exceeds what may act, most at chainage {}: fluid may reach the surface there",
        at.chainage
    )
}

fn notes(
    c: &Context<'_>,
    run: &StageRun,
    places: &Places<'_>,
    at: &crate::ground_and_fluid::BorePlace,
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
    if let Some(weaker) = at.weaker {
        let soils = places.model.soils();
        let name = soils.get(weaker.stress.soil).map_or("", |s| s.name.as_str());
        let distance = weaker.distance;
        notes.push(format!("Weaker or more open ground ({name}) begins {distance} from the axis."));
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

/// Source of the annular loss.
pub(super) const SLOT: Source =
    Source::new("laminar flow of a yield fluid in a slot, exact", Evidence::Derived);
