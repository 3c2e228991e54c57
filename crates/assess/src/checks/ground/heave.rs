use std::f64::consts::{PI, TAU};

use fluid::{Cavity, Criterion, UndrainedCavity, mean_effective_stress};
use ground::{Obstacle, Soil, surface_heave};
use quantity::{Length, Pressure, unit};
use working::{Evidence, Source};

use super::under::{Under, under};
use crate::assessment::{Reading, Stage};
use crate::context::Context;
use crate::ground_and_fluid::{BorePlace, Places, StagePlace, StageRun};
use crate::item::{About, Item};
use crate::quoted::from_line;

const CAVITY: Source =
    Source::new("cavity of the limit pressure, at the pressure that acts", Evidence::Derived);
const FIELD: Source = Source::new("incompressible half-space (Sagaseta 1987)", Evidence::Derived);
/// Poisson's ratio of ground that keeps its volume.
const INCOMPRESSIBLE: f64 = 0.5;

/// By how much the wall of the bore yields at the pressure of a stage.
struct Growth {
    /// Volume per length by which the bore grows, m3/m; `None` where the pressure has no bound.
    volume: Option<f64>,
    /// Whether it is elastic.
    elastic: bool,
    drained: bool,
    /// Mean stress in the ground that it grows from, total.
    stress: Pressure,
    /// Plastic zone and strength over stiffness.
    plastic: Option<(Length, f64)>,
}

/// Growth of the wall under a pressure, the larger of drained and undrained.
fn growth(soil: &Soil, at: &BorePlace, radius: Length, pressure: Pressure) -> Option<Growth> {
    let (modulus, stress) = (soil.shear_modulus?, mean_effective_stress(&at.stress, soil));
    let total = stress + at.stress.pore;
    let elastic = TAU * radius.si().powi(2) * (pressure - total).max(Pressure::ZERO).si()
        / (2.0 * modulus.si());
    let made = |drained: bool, zone: Result<Option<Length>, fluid::FluidError>, ratio: f64| {
        let plastic = |zone: Length| PI * ratio * zone.si().powi(2);
        let (volume, plastic) = match zone {
            Ok(None) => (Some(elastic), None),
            Ok(Some(zone)) => (Some(plastic(zone)), Some((zone, ratio))),
            Err(_) => (None, None),
        };
        let elastic = volume.is_some() && plastic.is_none();
        Growth { volume, elastic, drained, stress: total, plastic }
    };
    let mut found = Vec::new();
    if let Some(friction_angle) = soil.friction_angle
        && stress.si() > 0.0
    {
        let cavity = Cavity {
            effective_stress: stress,
            friction_angle,
            cohesion: soil.cohesion,
            shear_modulus: modulus,
            bore_radius: radius,
        };
        let effective = pressure - at.stress.pore;
        found.push(made(true, cavity.plastic_radius_at(effective), cavity.stiffness_ratio().ok()?));
    }
    if let Some(undrained_strength) = soil.undrained_strength {
        let cavity = UndrainedCavity {
            total_stress: total,
            undrained_strength,
            shear_modulus: modulus,
            bore_radius: radius,
        };
        found.push(made(false, cavity.plastic_radius_at(pressure), cavity.stiffness_ratio().ok()?));
    }
    let size = |g: &Growth| g.volume.unwrap_or(f64::INFINITY);
    found.into_iter().max_by(|a, b| size(a).total_cmp(&size(b)))
}

/// What a stage does to the obstacle from a place below it.
struct Lift<'r> {
    stage: &'r StageRun,
    place: &'r StagePlace,
    at: &'r BorePlace,
    soil: &'r Soil,
    /// From the axis up to the obstacle; negative where the bore passes above.
    depth: Length,
    growth: Growth,
    /// `None` where it has no bound.
    up: Option<Length>,
}

impl Lift<'_> {
    fn size(&self) -> f64 {
        self.up.map_or(f64::INFINITY, Length::si)
    }
}

fn lift<'r>(places: &'r Places<'_>, stage: &'r StageRun, under: Under) -> Option<Lift<'r>> {
    let (at, place) = (places.list.get(under.index)?, stage.places.get(under.index)?);
    let soil = places.soil(at)?;
    let lifted = place.limits.uplift.then_some(Growth {
        volume: None,
        elastic: false,
        drained: true,
        stress: at.stress.pore,
        plastic: None,
    });
    let grown = || growth(soil, at, stage.setup.hole / 2.0, place.pressure.total());
    let growth = lifted.or_else(grown)?;
    let depth = under.depth;
    let up = match growth.volume {
        _ if depth.si() <= 0.0 => Some(Length::ZERO),
        Some(volume) => {
            surface_heave(volume, depth, Length::ZERO, INCOMPRESSIBLE).ok().map(|(up, _)| up)
        }
        None => None,
    };
    Some(Lift { stage, place, at, soil, depth, growth, up })
}

/// Heave of an obstacle from the pressure of the fluid on the wall of the bore, the worst stage.
pub(super) fn check(c: &Context<'_>, index: usize, obstacle: &Obstacle, id: &str) -> Item {
    let p = c.project;
    let key = format!("/site/obstacle/{index}/heave_limit");
    let about = About::new(
        format!("ground.heave.{id}"),
        format!("heave of {} ({})", obstacle.name, obstacle.kind.word()),
        Stage::Ream,
        CAVITY,
    );
    let run = c.fluid();
    let places = match &run.places {
        Ok(places) => places,
        Err(m) => return about.not_assessed(&[], m.because.clone()).missing(&m.keys),
    };
    if let Some((.., Err(m))) = run.stages.iter().find(|(.., made)| made.is_err()) {
        return about.not_assessed(&[], m.because.clone()).missing(&m.keys);
    }
    let below = under(places, obstacle);
    if below.is_empty() {
        return about.not_assessed(&[], "the bore does not pass it in the ground");
    }
    let lifts: Vec<Lift<'_>> =
        run.made().flat_map(|stage| below.iter().filter_map(|u| lift(places, stage, *u))).collect();
    // The first of equal ones.
    let worst =
        lifts.into_iter().reduce(|best, next| if next.size() > best.size() { next } else { best });
    let Some(Lift { stage, place, at, soil, depth, growth, up }) = worst else {
        return about.not_assessed(&[], "no soil below it is taken to give way");
    };
    let pressure = place.pressure.total();
    let mm = |v: Length| Reading::new(v.si(), unit::MM);
    let (Some(up), Some(volume)) = (up, growth.volume) else {
        let because = format!(
            "in the stage {} the {pressure} of the fluid have no equilibrium with the ground at chainage {}{}: see fluid.limit-pressure",
            stage.setup.name,
            at.chainage,
            if place.limits.uplift { ", which the water lifts" } else { "" }
        );
        return about.without_bound(obstacle.heave_limit.map(mm), because).at(at.md);
    };
    let Some(limit) = obstacle.heave_limit else {
        return about
            .not_assessed(&[&key], "the heave that it bears is not given")
            .acting(mm(up))
            .at(at.md);
    };
    let weight = place.limits.get(Criterion::Overburden).unwrap_or(Pressure::ZERO);
    let above_weight = pressure > weight;
    let may_lift = pressure > weight * p.factors.ground.overburden;
    let because = format!(
        "worst in the stage {}: {pressure} on the wall against {} of mean stress in {}; the bore grows by {} ({}); the weight above is {weight}{}",
        stage.setup.name,
        growth.stress,
        soil.name,
        quantity::show_briefly(volume, unit::L_PER_M),
        if growth.elastic { "elastic" } else { "plastic" },
        match (may_lift, above_weight) {
            (true, _) => ", so much less than the pressure that a block may lift",
            (false, true) => ", less than the pressure",
            (false, false) => "",
        }
    );
    about
        .at_most(mm(up), mm(limit), p.factors.attention, because)
        .at(at.md)
        .attend(may_lift)
        .worked(c.working(|w| {
            w.found("p", "pressure of the fluid", "see the check of the limit pressure of this stage", pressure.si(), unit::KPA, CAVITY);
            w.found("sigma_0", "mean total stress across the bore", "(1 + K0)/2 of the effective stress, and pore pressure", growth.stress.si(), unit::KPA, CAVITY);
            w.given("D", "diameter of the bore of this stage", stage.setup.hole.si(), unit::MM);
            w.given("G", "shear modulus of the soil", soil.shear_modulus.map_or(f64::NAN, |g| g.si()), unit::MPA);
            match growth.plastic {
                Some((zone, ratio)) => {
                    let how = if growth.drained { "drained cavity with this pressure" } else { "undrained cavity with this pressure" };
                    w.found("R_p", "radius of the plastic zone", how, zone.si(), unit::M, CAVITY);
                    w.found("Q_G", "strength over stiffness", how, ratio, unit::ONE, CAVITY);
                    w.result("V", "volume by which the bore grows", "pi*Q_G*R_p^2", volume, unit::L_PER_M, CAVITY);
                }
                None => {
                    w.result("V", "volume by which the bore grows", "2*pi*(D/2)^2*max(p - sigma_0, 0)/(2*G)", volume, unit::L_PER_M, CAVITY);
                }
            }
            from_line(w, "h", "from the axis up to the obstacle", depth.si(), unit::M);
            if depth.si() > 0.0 {
                w.result("s", "heave above the axis", "V/(pi*h)", up.si(), unit::MM, FIELD);
            } else {
                w.derive("s", "heave of what lies below the bore", "0*h", unit::MM, FIELD);
            }
            w.given("s_lim", "heave that it bears", limit.si(), unit::MM);
            w.derive("U", "utilisation", "s/s_lim", unit::ONE, FIELD);
        }))
        .note("The ground is taken to keep its volume and the obstacle to stand at the surface; fluid that breaks out below a pavement lifts it far more than this.")
}
