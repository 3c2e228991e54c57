//! Values from soundings beside those that the checks use: offered, never taken.

use ground::{
    Boring, CONE_FACTOR, PenetrationTest, Soil, SoilGroup, Stress, WaterAt, friction_angle_cpt,
    friction_angle_kulhawy, friction_angle_peck, overburden_factor, stress_at,
    undrained_strength_cpt, undrained_strength_spt,
};
use quantity::{Angle, Length, Pressure, unit};

use super::Places;

/// Plasticity index for which a strength is offered where none was measured.
// Judgement: middle of the table from 0.15 to 0.60.
const PLASTICITY: f64 = 0.3;

/// Sentences on each soil with soundings.
pub(crate) fn correlations(places: &Places<'_>) -> Vec<String> {
    let soils = places.model.soils();
    let each = soils.iter().enumerate();
    each.flat_map(|(i, soil)| [blows(places, i, soil), cone(places, i, soil)]).flatten().collect()
}

fn blows(places: &Places<'_>, index: usize, soil: &Soil) -> Option<String> {
    let borings = places.model.borings();
    let tests: Vec<(&Boring, &PenetrationTest)> = borings
        .iter()
        .flat_map(|b| b.penetration.iter().map(move |t| (b, t)))
        .filter(|(b, t)| b.soil_at(t.level) == Some(index))
        .collect();
    let counted = range(tests.iter().map(|(_, t)| t.blows))?;
    let known = tests.iter().filter(|(_, t)| t.n60.is_some()).count();
    let found = match soil.kind.group() {
        SoilGroup::Granular => granular(places, soil, &tests)?,
        SoilGroup::Fine => fine(soil, &tests)?,
        SoilGroup::Rock => return None,
    };
    let energy = match known {
        0 => "taken as N60".to_owned(),
        n if n == tests.len() => "as N60".to_owned(),
        n => format!("{n} as N60, the others taken as such"),
    };
    Some(format!(
        "Blow counts in {}: {} ({} tests, {energy}). {found} A value from blow counts scatters widely; where the source read states no spread, none is shown: see the worksheets spt-friction-angle and spt-undrained-strength.",
        soil.name,
        words(counted, |v| format!("{v:.0}")),
        tests.len()
    ))
}

fn n60(test: &PenetrationTest) -> f64 {
    test.n60.unwrap_or(test.blows)
}

/// Stresses at a level of a boring, with the water of the boring, else of the site.
fn stress(places: &Places<'_>, boring: &Boring, level: Length) -> Option<Stress> {
    let column = places.model.column(boring.chainage, boring.level);
    let near = |p: &&super::BorePlace| (p.chainage - boring.chainage).abs().si();
    let of_site =
        || places.list.iter().min_by(|a, b| near(a).total_cmp(&near(b))).map(|p| p.water_level);
    let water = boring.groundwater_level.or_else(of_site)?;
    stress_at(&column, places.model.soils(), WaterAt { level: water }, level)
}

fn granular(
    places: &Places<'_>,
    soil: &Soil,
    tests: &[(&Boring, &PenetrationTest)],
) -> Option<String> {
    let effective = |b: &Boring, level: Length| Some(stress(places, b, level)?.effective_vertical);
    let peck = range(tests.iter().filter_map(|(b, t)| {
        let factor = overburden_factor(effective(b, t.level)?).ok()?;
        friction_angle_peck(n60(t) * factor).ok().map(Angle::to_degrees)
    }))?;
    let kulhawy = range(tests.iter().filter_map(|(b, t)| {
        friction_angle_kulhawy(n60(t), effective(b, t.level)?).ok().map(Angle::to_degrees)
    }));
    let other = kulhawy.map_or(String::new(), |k| {
        format!(" and {} deg (Kulhawy and Mayne 1990)", words(k, |v| format!("{v:.0}")))
    });
    Some(format!(
        "They stand for a friction angle of {} deg (Peck, Hanson and Thornburn 1974){other}; the checks use {}.",
        words(peck, |v| format!("{v:.0}")),
        angle_used(soil)
    ))
}

fn fine(soil: &Soil, tests: &[(&Boring, &PenetrationTest)]) -> Option<String> {
    let strengths = range(
        tests
            .iter()
            .filter_map(|(_, t)| undrained_strength_spt(n60(t), PLASTICITY).ok())
            .map(Pressure::si),
    )?;
    Some(format!(
        "With a plasticity index of 30 % they stand for an undrained strength of {} (Salgado 2008); the checks use {}.",
        words(strengths, kpa),
        strength_used(soil)
    ))
}

fn cone(places: &Places<'_>, index: usize, soil: &Soil) -> Option<String> {
    let readings: Vec<_> = places
        .model
        .borings()
        .iter()
        .flat_map(|b| b.cone.iter().map(move |r| (b, r)))
        .filter(|(b, r)| b.soil_at(r.level) == Some(index))
        .collect();
    let tip = range(readings.iter().map(|(_, r)| r.resistance.si()))?;
    let found = match soil.kind.group() {
        SoilGroup::Granular => {
            let angles = range(readings.iter().filter_map(|(b, r)| {
                let stress = stress(places, b, r.level)?.effective_vertical;
                friction_angle_cpt(r.resistance, stress).ok().map(Angle::to_degrees)
            }))?;
            format!(
                "They stand for a friction angle of {} deg (Kulhawy and Mayne 1990; spread not stated in the source read); the checks use {}.",
                words(angles, |v| format!("{v:.0}")),
                angle_used(soil)
            )
        }
        SoilGroup::Fine => {
            let (low, high) = CONE_FACTOR;
            let strengths = range(readings.iter().flat_map(|(b, r)| {
                [low, high].into_iter().filter_map(|factor| {
                    let total = stress(places, b, r.level)?.total_vertical;
                    undrained_strength_cpt(r.resistance, total, factor).ok().map(Pressure::si)
                })
            }))?;
            format!(
                "With cone factors of {low} to {high} they stand for an undrained strength of {} (Rad and Lunne 1988); the checks use {}.",
                words(strengths, kpa),
                strength_used(soil)
            )
        }
        SoilGroup::Rock => return None,
    };
    Some(format!(
        "Cone resistance in {}: {} ({} readings). {found}",
        soil.name,
        words(tip, |v| quantity::show_briefly(v, unit::MPA)),
        readings.len()
    ))
}

fn angle_used(soil: &Soil) -> String {
    soil.friction_angle.map_or("none".to_owned(), |a| format!("{:.1} deg", a.to_degrees()))
}

fn strength_used(soil: &Soil) -> String {
    soil.undrained_strength.map_or("none".to_owned(), |s| kpa(s.si()))
}

fn kpa(v: f64) -> String {
    quantity::show_briefly(v, unit::KPA)
}

fn range(values: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    values.fold(None, |range, v| match range {
        None => Some((v, v)),
        Some((low, high)) => Some((f64::min(low, v), f64::max(high, v))),
    })
}

fn words((low, high): (f64, f64), show: impl Fn(f64) -> String) -> String {
    let (low, high) = (show(low), show(high));
    if low == high { low } else { format!("{low} to {high}") }
}
