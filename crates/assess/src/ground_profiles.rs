//! Curves of ground and fluid along the bore.

use fluid::Criterion;
use ground::{Trough, annulus_loss_volume};
use quantity::Pressure;

use crate::assessment::Profile;
use crate::context::Context;
use crate::ground_and_fluid::{BorePlace, Places, StageRun};

/// Every second place, so that curves have one point a metre.
const EVERY: usize = 2;

/// Every curve; none where the ground is not known.
pub(crate) fn all(c: &Context<'_>) -> Vec<Profile> {
    let run = c.fluid();
    let Ok(places) = &run.places else { return Vec::new() };
    let mut profiles = vec![
        of(places, "ground.water-level", "water level", "m", |_, at| Some(at.water_level.si())),
        of(places, "ground.total-stress", "total vertical stress at the axis", "Pa", |_, at| {
            Some(at.stress.total_vertical.si())
        }),
        of(places, "ground.pore-pressure", "pressure of the water in the ground", "Pa", |_, at| {
            Some(at.stress.pore.si())
        }),
        of(
            places,
            "ground.effective-stress",
            "effective vertical stress at the axis",
            "Pa",
            |_, at| Some(at.stress.effective_vertical.si()),
        ),
    ];
    profiles.push(of(
        places,
        "ground.weaker-layer",
        "distance from the axis to the nearest weaker or open layer",
        "m",
        |_, at| at.weaker.iter().flatten().map(|w| w.distance.si()).reduce(f64::min),
    ));
    profiles.extend(settlement(c, places));
    for stage in run.made() {
        profiles.extend(of_stage(places, stage));
    }
    profiles
}

/// A curve over places; those where it has no value are left out.
fn of(
    places: &Places<'_>,
    id: &str,
    title: &str,
    unit: &'static str,
    value: impl Fn(usize, &BorePlace) -> Option<f64>,
) -> Profile {
    let last = places.list.len().saturating_sub(1);
    let chosen = places.list.iter().enumerate().filter(|(i, _)| i % EVERY == 0 || *i == last);
    let points: Vec<_> = chosen
        .filter_map(|(i, at)| Some((at.md.si(), value(i, at).filter(|v| v.is_finite())?)))
        .collect();
    Profile {
        id: id.to_owned(),
        title: title.to_owned(),
        md: points.iter().map(|p| p.0).collect(),
        values: points.iter().map(|p| p.1).collect(),
        unit,
    }
}

fn of_stage(places: &Places<'_>, stage: &StageRun) -> Vec<Profile> {
    let (id, name) = (&stage.setup.id, &stage.setup.name);
    let at = |i: usize| stage.places.get(i);
    let curve = |what: &str, title: &str, value: &dyn Fn(usize) -> Option<Pressure>| {
        let id = format!("fluid.{what}.{id}");
        of(places, &id, &format!("{title}, {name}"), "Pa", |i, _| value(i).map(Pressure::si))
    };
    let mut list = vec![
        curve("pressure", "pressure of the fluid", &|i| Some(at(i)?.pressure.total())),
        curve("column", "column of fluid", &|i| Some(at(i)?.pressure.column)),
        curve("allowed", "what the fluid may press", &|i| Some(at(i)?.allowed())),
    ];
    for criterion in Criterion::ALL {
        let title = format!("limit: {}", criterion.meaning());
        let what = format!("limit.{}", criterion.id());
        let profile = curve(&what, &title, &|i| at(i)?.limits.get(criterion));
        if !profile.md.is_empty() {
            list.push(profile);
        }
    }
    list
}

/// Settlement of the ground line above the bore.
fn settlement(c: &Context<'_>, places: &Places<'_>) -> Option<Profile> {
    let p = c.project;
    let f = &p.factors.ground;
    let barrel = p.string.pipe.barrel_diameter();
    let volume = annulus_loss_volume(p.bore.final_diameter, barrel, f.annulus_closing).ok()?;
    Some(of(
        places,
        "ground.settlement",
        "settlement of the ground above the bore",
        "m",
        |_, at| {
            let factor = crate::checks::trough_factor(p, places, at, at.ground_level);
            Trough::new(volume, at.cover(), factor).ok().map(|t| t.greatest().si())
        },
    ))
}
