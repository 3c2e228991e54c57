//! Stress of the barrel in the pull.

use pipe::barrel_axial_capacity;
use pull::{Barrel, BarrelLoad, barrel_stress};
use quantity::{Length, Pressure, unit};
use working::{Evidence, Source};

use super::RATIO;
use crate::assessment::{Reading, Stage};
use crate::context::Context;
use crate::item::{About, Item};
use crate::quoted::{from_chain, from_statics};

/// Stress in the barrel.
pub(super) fn barrel(c: &Context<'_>) -> Item {
    let p = c.project;
    let pipe = &p.string.pipe;
    let about = About::new(
        "pull.barrel",
        "axial stress of the barrel with the bending of pull and weight",
        Stage::Pull,
        p.source_of("/factors/barrel_share"),
    );
    let run = match c.design() {
        Ok(run) => run,
        Err(m) => return about.not_assessed(&[], m.because.clone()).missing(&m.keys),
    };
    let (Some((tension, _)), Some((side, _)), Some(gap)) = (
        run.tension(),
        run.greatest(|h| h.side_force),
        run.pull.heads.iter().map(|h| h.clearance.value).reduce(|a, b| if b < a { b } else { a }),
    ) else {
        return about.not_assessed(&[], "the pull has no head position");
    };
    let barrel = Barrel {
        laying_length: pipe.laying_length(),
        outside_diameter: pipe.outside_diameter(),
        wall: pipe.wall_min(),
        modulus: pipe.modulus(),
    };
    let load = BarrelLoad {
        tension: tension.value,
        side_force: side.value,
        net_weight: c.net_weight,
        forced_deflection: (-gap).max(Length::ZERO),
    };
    let stress = match barrel_stress(&barrel, &load) {
        Ok(stress) => stress,
        Err(e) => return about.not_assessed(&[], e.to_string()),
    };
    let limit = pipe.proof_strength() * p.factors.barrel_share;
    let forced = if gap.si() < 0.0 {
        format!("; a barrel must bend by {} to pass", quantity::show(-gap.si(), unit::MM))
    } else {
        "; no barrel touches the wall between its sockets".to_owned()
    };
    let because = format!(
        "axial {}, bending at most {} on the least wall{forced}",
        quantity::show(stress.axial.si(), unit::MPA),
        quantity::show((stress.bending + stress.forced).si(), unit::MPA),
    );
    let mpa = |p: Pressure| Reading::new(p.si(), unit::MPA);
    about
        .at_most(
            mpa(stress.axial + stress.bending + stress.forced),
            mpa(limit),
            p.factors.attention,
            because,
        )
        .at(tension.md)
        .worked(c.working(|w| {
            from_chain(w, "T", "greatest tension", tension.value.si(), unit::KN);
            from_chain(w, "N", "greatest force of a joint on the wall", side.value.si(), unit::KN);
            c.laying_length(w);
            c.outside_diameter(w);
            c.wall_min(w);
            from_statics(w, "w", "net weight per length in the fluid", c.net_weight.si(), unit::N_PER_M);
            c.modulus(w);
            from_chain(w, "m_b", "bending deflection forced by the wall, 0 where it does not touch", (-gap.si()).max(0.0), unit::MM);
            let mechanics = || Source::new("beam theory", Evidence::Derived);
            w.derive("A", "area of the iron", "pi*(DE - e)*e", unit::MM2, mechanics());
            w.derive("Z", "section modulus of the iron", "pi*(DE - e)^3*e/(4*DE)", unit::M3, mechanics());
            w.result("sigma_a", "axial stress", "T/A", stress.axial.si(), unit::MPA, mechanics());
            w.result(
                "sigma_b",
                "bending, if the side force and the weight acted at mid-barrel",
                "(N*a/4 + abs(w)*a^2/8)/Z",
                stress.bending.si(),
                unit::MPA,
                mechanics(),
            );
            w.result("sigma_f", "bending forced by the wall", "6*E*DE*m_b/a^2", stress.forced.si(), unit::MPA, mechanics());
            w.derive("sigma", "sum", "sigma_a + sigma_b + sigma_f", unit::MPA, mechanics());
            w.given_from(
                "f_y",
                "0.2 % proof strength",
                pipe.proof_strength().si(),
                unit::MPA,
                pipe.data().proof_strength.source.clone(),
            );
            w.given_from("q", "share that may be used", p.factors.barrel_share, unit::ONE, p.source_of("/factors/barrel_share"));
            w.derive("U", "utilisation", "sigma/(q*f_y)", unit::ONE, RATIO);
        }))
        .note(barrel_axial_capacity(pipe.proof_strength(), pipe.outside_diameter(), pipe.wall_min()).map_or_else(
            |e| e.to_string(),
            |f| format!("Axial capacity of the barrel at proof strength: {f}. The joint governs in every published row."),
        ))
}
