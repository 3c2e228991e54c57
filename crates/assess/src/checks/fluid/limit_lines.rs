//! How what the ground bears was obtained, line by line.

use fluid::Criterion;
use ground::{Soil, SoilGroup};
use quantity::{Length, unit};
use working::{Builder, Evidence, Source};

use super::stress_lines::{STATICS, of_soil, stress_lines};
use crate::context::Context;
use crate::ground_and_fluid::{BorePlace, Places, StagePlace, StageSetup};

const CAVITY: Source = Source::new(
    "expansion of a cavity, Luger and Hergarden 1988 as in general use, derived again here",
    Evidence::Derived,
);
const ELASTIC: Source =
    Source::new("stress around a hole in elastic ground (Kirsch)", Evidence::Derived);
const NOTHING: Source = Source::new("nothing contains the fluid here", Evidence::Judgement);
const RATIO: Source = super::super::RATIO;

/// What the ground bears, what may act and the utilisation; needs `p` of the lines before.
pub(super) fn limit_lines(
    c: &Context<'_>,
    setup: &StageSetup,
    places: &Places<'_>,
    at: &BorePlace,
    place: &StagePlace,
    w: &mut Builder,
) {
    let Some(soil) = places.soil(at) else { return };
    stress_lines(c, places, at, soil, w);
    if uses_cavity(place.criterion) {
        w.given("D", "diameter of the bore of this stage", setup.hole.si(), unit::MM);
        w.derive("R_0", "radius of the bore", "D/2", unit::MM, CAVITY);
    }
    match place.nothing {
        Some(why) => {
            w.found("p_all", "what may act", why, 0.0, unit::KPA, NOTHING);
        }
        None => {
            criterion_lines(c, setup, at, soil, place, w);
            allowed_lines(c, places, at, soil, place, w);
        }
    }
    w.derive("m", "margin", "p_all - p", unit::KPA, RATIO);
    for (k, criterion) in Criterion::ALL.into_iter().enumerate() {
        if let Some(value) = place.limits.get(criterion) {
            let symbol = format!("L_{}", k + 1);
            let meaning = format!("beside it: {}", criterion.meaning());
            w.found(
                &symbol,
                &meaning,
                "the same place, without safety",
                value.si(),
                unit::KPA,
                source_of(criterion),
            );
        }
    }
}

/// What may act, from the limit with its safety and the weight above with its factor.
fn allowed_lines(
    c: &Context<'_>,
    places: &Places<'_>,
    at: &BorePlace,
    soil: &Soil,
    place: &StagePlace,
    w: &mut Builder,
) {
    let f = &c.project.factors.ground;
    let behind = at.weaker.get(place.limits.layer).copied().flatten();
    let behind = behind.and_then(|w| places.model.soils().get(w.stress.soil));
    let by_layer =
        matches!(place.criterion, Criterion::CavityByLayer | Criterion::UndrainedByLayer);
    let fine = |soil: &Soil| soil.kind.group() == SoilGroup::Fine;
    let any_fine = fine(soil) || (by_layer && behind.is_some_and(fine));
    let any_other = !fine(soil) || (by_layer && behind.is_some_and(|s| !fine(s)));
    // The greater safety counts where two soils take part.
    let key = if any_fine && (!any_other || f.safety_fine >= f.safety_granular) {
        "/factors/ground/safety_fine"
    } else {
        "/factors/ground/safety_granular"
    };
    w.given_from("S", "safety asked for", place.safety, unit::ONE, c.project.source_of(key));
    w.given_from(
        "f_v",
        "pressure over the weight above, at most",
        f.overburden,
        unit::ONE,
        c.project.source_of("/factors/ground/overburden"),
    );
    w.derive("p_all", "what may act", "min(p_lim/S, f_v*sigma_v)", unit::KPA, RATIO);
    if place.allowed().si() > 0.0 {
        w.derive("U", "utilisation", "p/p_all", unit::ONE, RATIO);
    }
}

fn source_of(criterion: Criterion) -> Source {
    match criterion {
        Criterion::Tension | Criterion::UndrainedYield => ELASTIC,
        Criterion::RockJoints => {
            Source::new("joints open at the least stress", Evidence::FromMemory)
        }
        Criterion::RockFracture => Source::new("Hubbert and Willis", Evidence::FromMemory),
        Criterion::Overburden => {
            Source::new("pressure below the weight above, for shallow cover", Evidence::FromMemory)
        }
        _ => CAVITY,
    }
}

const fn uses_cavity(criterion: Criterion) -> bool {
    matches!(
        criterion,
        Criterion::CavityByCover
            | Criterion::CavityByStrain
            | Criterion::CavityByLayer
            | Criterion::UndrainedByCover
            | Criterion::UndrainedByStrain
            | Criterion::UndrainedByLayer
    )
}

fn criterion_lines(
    c: &Context<'_>,
    setup: &StageSetup,
    at: &BorePlace,
    soil: &Soil,
    place: &StagePlace,
    w: &mut Builder,
) {
    let limit = place.limit.si();
    let meaning = format!("what the ground is taken to bear: {}", place.criterion.meaning());
    let last = |w: &mut Builder, formula: &str, source: Source| {
        w.result("p_lim", &meaning, formula, limit, unit::KPA, source);
    };
    match place.criterion {
        Criterion::CavityByCover | Criterion::CavityByStrain | Criterion::CavityByLayer => {
            drained_lines(c, soil, w);
            let elastic = zone_lines(c, at, soil, place, w);
            let formula = match (elastic, soil.friction_angle.map_or(0.0, |a| a.si()) > 0.0) {
                (true, _) => "sigma_0 + 2*G*eps + u",
                (false, true) => {
                    "(p_f + c/tan(phi))*min((R_0/R_p)^2 + Q_G, 1)^(-sin(phi)/(1 + sin(phi))) - c/tan(phi) + u"
                }
                (false, false) => "p_f - c*min(ln((R_0/R_p)^2 + Q_G), 0) + u",
            };
            let formula = with_layer(c, setup, at, place, formula, w);
            last(w, &formula, CAVITY);
        }
        Criterion::UndrainedByCover
        | Criterion::UndrainedByStrain
        | Criterion::UndrainedByLayer => {
            undrained_lines(c, soil, w);
            let elastic = zone_lines(c, at, soil, place, w);
            let formula = if elastic {
                "sigma_0 + u + 2*G*eps"
            } else {
                "p_f - s_u*min(ln((R_0/R_p)^2 + Q_G), 0)"
            };
            let formula = with_layer(c, setup, at, place, formula, w);
            last(w, &formula, CAVITY);
        }
        Criterion::FirstYield => {
            drained_lines(c, soil, w);
            last(w, "p_f + u", CAVITY);
        }
        Criterion::UndrainedYield => {
            let strength = soil.undrained_strength.map_or(f64::NAN, |s| s.si());
            w.given_from(
                "s_u",
                "undrained strength",
                strength,
                unit::KPA,
                of_soil(c, soil, "undrained_strength"),
            );
            w.derive("sigma_h", "total horizontal stress", "K_0*sigma_e + u", unit::KPA, STATICS);
            last(w, "max(s_u + (3*min(sigma_v, sigma_h) - max(sigma_v, sigma_h))/2, 0)", ELASTIC);
        }
        Criterion::Tension => {
            w.given_from(
                "sigma_t",
                "tensile strength",
                soil.tensile_strength.si(),
                unit::KPA,
                of_soil(c, soil, "tensile_strength"),
            );
            last(w, "max(u + min(3*K_0 - 1, 3 - K_0)*sigma_e + sigma_t, 0)", ELASTIC);
        }
        Criterion::RockJoints => {
            last(w, "min(sigma_v, K_0*sigma_e + u)", source_of(Criterion::RockJoints));
        }
        Criterion::RockFracture | Criterion::Overburden => {
            last(w, "sigma_v", source_of(Criterion::Overburden));
        }
    }
}

/// The formula of a limit by a layer, which bears its own limit; symbol `p_w`.
fn with_layer(
    c: &Context<'_>,
    setup: &StageSetup,
    at: &BorePlace,
    place: &StagePlace,
    formula: &str,
    w: &mut Builder,
) -> String {
    if !matches!(place.criterion, Criterion::CavityByLayer | Criterion::UndrainedByLayer) {
        return formula.to_owned();
    }
    let own = c.limit_of_weaker(setup, at, place.limits.layer);
    let why =
        Source::new("limit of the weaker layer itself, none where it is open", Evidence::Judgement);
    w.found(
        "p_w",
        "what the weaker layer bears at its boundary, by cover and strain",
        "its own soil and stresses",
        own.si(),
        unit::KPA,
        why,
    );
    format!("max({formula}, p_w)")
}

fn drained_lines(c: &Context<'_>, soil: &Soil, w: &mut Builder) {
    let phi = soil.friction_angle.map_or(f64::NAN, |a| a.si());
    w.given_from("phi", "friction angle", phi, unit::DEG, of_soil(c, soil, "friction_angle"));
    w.given_from("c", "cohesion", soil.cohesion.si(), unit::KPA, of_soil(c, soil, "cohesion"));
    modulus_line(c, soil, w);
    w.derive(
        "p_f",
        "effective pressure at first yield",
        "sigma_0*(1 + sin(phi)) + c*cos(phi)",
        unit::KPA,
        CAVITY,
    );
    w.derive(
        "Q_G",
        "strength over stiffness",
        "(sigma_0*sin(phi) + c*cos(phi))/G",
        unit::ONE,
        CAVITY,
    );
}

fn undrained_lines(c: &Context<'_>, soil: &Soil, w: &mut Builder) {
    let strength = soil.undrained_strength.map_or(f64::NAN, |s| s.si());
    w.given_from(
        "s_u",
        "undrained strength",
        strength,
        unit::KPA,
        of_soil(c, soil, "undrained_strength"),
    );
    modulus_line(c, soil, w);
    w.derive("p_f", "total pressure at first yield", "sigma_0 + u + s_u", unit::KPA, CAVITY);
    w.derive("Q_G", "strength over stiffness", "s_u/G", unit::ONE, CAVITY);
}

fn modulus_line(c: &Context<'_>, soil: &Soil, w: &mut Builder) {
    let modulus = soil.shear_modulus.map_or(f64::NAN, |g| g.si());
    w.given_from("G", "shear modulus", modulus, unit::MPA, of_soil(c, soil, "shear_modulus"));
}

/// The plastic zone, symbol `R_p`; returns whether the wall is still elastic at the strain, so that there is none.
fn zone_lines(
    c: &Context<'_>,
    at: &BorePlace,
    soil: &Soil,
    place: &StagePlace,
    w: &mut Builder,
) -> bool {
    let p = c.project;
    let f = &p.factors.ground;
    match place.criterion {
        Criterion::CavityByStrain | Criterion::UndrainedByStrain => {
            w.given_from(
                "eps",
                "strain of the wall",
                f.wall_strain,
                unit::PERCENT,
                p.source_of("/factors/ground/wall_strain"),
            );
            let squared = w.derive(
                "x_p",
                "square of plastic zone over bore at this strain",
                "2*eps/Q_G",
                unit::ONE,
                CAVITY,
            );
            if squared < 1.0 {
                return true;
            }
            w.derive(
                "R_p",
                "radius of the plastic zone at this strain",
                "R_0*sqrt(x_p)",
                unit::M,
                CAVITY,
            );
        }
        Criterion::CavityByLayer | Criterion::UndrainedByLayer => {
            let behind = at.weaker.get(place.limits.layer).copied().flatten();
            let distance = behind.map_or(Length::ZERO, |w| w.distance);
            w.found(
                "d_w",
                "distance to the weaker layer",
                "straight up or down to the nearest boundary",
                distance.si(),
                unit::M,
                STATICS,
            );
            w.derive(
                "R_p",
                "radius of the plastic zone, not less than the bore",
                "max(d_w, R_0)",
                unit::M,
                CAVITY,
            );
        }
        _ => {
            let (key, share) = match soil.kind.group() {
                SoilGroup::Fine => ("/factors/ground/plastic_zone_fine", f.plastic_zone_fine),
                _ => ("/factors/ground/plastic_zone_granular", f.plastic_zone_granular),
            };
            w.found(
                "H",
                "ground above the axis",
                "ground line less level of the axis",
                at.cover().si(),
                unit::M,
                STATICS,
            );
            w.given_from(
                "a_R",
                "share of the cover that the plastic zone may take",
                share,
                unit::ONE,
                p.source_of(key),
            );
            w.derive(
                "R_p",
                "radius of the plastic zone, not less than the bore",
                "max(a_R*H, R_0)",
                unit::M,
                CAVITY,
            );
        }
    }
    false
}
