//! Values from soundings beside those that the checks use: offered, never taken.

use ground::{
    Boring, Column, PenetrationTest, Soil, SoilGroup, WaterAt, friction_angle_kulhawy,
    friction_angle_peck, overburden_factor, stress_at, undrained_strength_spt,
};
use quantity::{Angle, Length, Pressure, unit};

use super::Places;

/// Plasticity index for which a strength is offered where none was measured.
// Judgement: middle of the table from 0.15 to 0.60.
const PLASTICITY: f64 = 0.3;

/// One sentence a soil with soundings.
pub(crate) fn correlations(places: &Places<'_>) -> Vec<String> {
    let soils = places.model.soils();
    soils.iter().enumerate().filter_map(|(i, soil)| of_soil(places, i, soil)).collect()
}

fn of_soil(places: &Places<'_>, index: usize, soil: &Soil) -> Option<String> {
    let borings = places.model.borings();
    let tests: Vec<(&Boring, &PenetrationTest)> = borings
        .iter()
        .flat_map(|b| b.penetration.iter().map(move |t| (b, t)))
        .filter(|(b, t)| b.soil_at(t.level) == Some(index))
        .collect();
    let blows = range(tests.iter().map(|(_, t)| t.blows))?;
    let found = match soil.kind.group() {
        SoilGroup::Granular => granular(places, soil, &tests)?,
        SoilGroup::Fine => fine(soil, &tests)?,
        SoilGroup::Rock => return None,
    };
    Some(format!(
        "Blow counts in {}: {} ({} tests, taken as N60). {found} A value from blow counts scatters widely: see the worksheets spt-friction-angle and spt-undrained-strength.",
        soil.name,
        words(blows, |v| format!("{v:.0}")),
        tests.len()
    ))
}

fn granular(
    places: &Places<'_>,
    soil: &Soil,
    tests: &[(&Boring, &PenetrationTest)],
) -> Option<String> {
    let stress = |boring: &Boring, level: Length| -> Option<Pressure> {
        let column: Column = places.model.column(boring.chainage, boring.level);
        let water = boring.groundwater_level.unwrap_or(boring.level);
        let at = WaterAt { level: water };
        Some(stress_at(&column, places.model.soils(), at, level)?.effective_vertical)
    };
    let peck = range(tests.iter().filter_map(|(b, t)| {
        let factor = overburden_factor(stress(b, t.level)?).ok()?;
        friction_angle_peck(t.blows * factor).ok().map(Angle::to_degrees)
    }))?;
    let kulhawy = range(tests.iter().filter_map(|(b, t)| {
        friction_angle_kulhawy(t.blows, stress(b, t.level)?).ok().map(Angle::to_degrees)
    }));
    let used = soil.friction_angle.map_or(f64::NAN, Angle::to_degrees);
    let other = kulhawy.map_or(String::new(), |k| {
        format!(" and {} deg (Kulhawy and Mayne 1990)", words(k, |v| format!("{v:.0}")))
    });
    Some(format!(
        "They stand for a friction angle of {} deg (Peck, Hanson and Thornburn 1974){other}; the checks use {used:.1} deg.",
        words(peck, |v| format!("{v:.0}"))
    ))
}

fn fine(soil: &Soil, tests: &[(&Boring, &PenetrationTest)]) -> Option<String> {
    let strengths = range(
        tests
            .iter()
            .filter_map(|(_, t)| undrained_strength_spt(t.blows, PLASTICITY).ok())
            .map(Pressure::si),
    )?;
    let shown = |v: f64| quantity::show_briefly(v, unit::KPA);
    let used = soil.undrained_strength.map_or("none".to_owned(), |s| shown(s.si()));
    Some(format!(
        "With a plasticity index of 30 % they stand for an undrained strength of {} (Salgado 2008); the checks use {used}.",
        words(strengths, shown)
    ))
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
