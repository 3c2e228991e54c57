//! Checks of the string in the fluid: buoyancy, outside pressure.

use pipe::Contents;
use quantity::{ForcePerLength, GRAVITY, Length, Pressure, unit};
use working::{Evidence, Source};

use crate::assessment::{Reading, Stage};
use crate::context::Context;
use crate::item::{About, Item};
use crate::quoted::{from_line, from_pipe, from_statics, gravity, water_density};

const STATICS: Source = Source::new("hydrostatics", Evidence::Derived);

/// Whether the contents chosen are the better ones.
pub(super) fn buoyancy(c: &Context<'_>) -> Item {
    let p = c.project;
    let pipe = &p.string.pipe;
    let about = About::new(
        "string.buoyancy",
        "net weight in the fluid against the better of empty and water-filled",
        Stage::Pull,
        Source::new(
            "the string is ballasted where that lowers its weight on the wall",
            Evidence::CommonPractice,
        ),
    );
    let (empty, full) = match (
        pipe.net_weight(p.fluid.density, Contents::Empty),
        pipe.net_weight(p.fluid.density, Contents::Water),
    ) {
        (Ok(e), Ok(f)) => (e, f),
        (Err(e), _) | (_, Err(e)) => return about.not_assessed(&[], e.to_string()),
    };
    let chosen = c.net_weight;
    let best = empty.abs().min(full.abs());
    let way = |w: ForcePerLength| if w.si() < 0.0 { "floats" } else { "sinks" };
    let neutral = pipe.neutral_fill(p.fluid.density, Context::water_density()).ok();
    let hint = match neutral {
        Some(n) if n > 0.0 && n < 1.0 => {
            format!("; it would be weightless with water in {:.0} % of its bore", 100.0 * n)
        }
        Some(n) if n <= 0.0 => "; it sinks even when empty, so that no ballast helps".to_owned(),
        _ => String::new(),
    };
    let name = match p.string.contents {
        Contents::Empty => "empty".to_owned(),
        Contents::Water => "filled with water".to_owned(),
        Contents::Part(f) => format!("with water in {:.0} % of its bore", 100.0 * f),
    };
    let because = format!(
        "{name} the string {} with {} (empty {}, filled {}){hint}",
        way(chosen),
        chosen.abs(),
        empty,
        full
    );
    let per_metre = |w: ForcePerLength| Reading::new(w.si(), unit::N_PER_M);
    // The forces are checked elsewhere: a heavier choice than needed does not fail by itself.
    about
        .rule()
        .at_most(per_metre(chosen.abs()), per_metre(best), p.factors.attention, because)
        .worked(c.working(|w| {
            c.mass(w);
            from_pipe(w, "V", "volume displaced by one pipe", pipe.displaced_volume_per_pipe().si(), unit::M3);
            c.laying_length(w);
            from_pipe(w, "d", "bore inside the lining", pipe.bore().si(), unit::MM);
            w.given_from("rho_f", "density of the fluid", p.fluid.density.si(), unit::KG_PER_M3, p.source_of("/fluid/density"));
            water_density(w);
            w.given("phi", "share of the bore with water", p.string.contents.fraction().unwrap_or(f64::NAN), unit::ONE);
            gravity(w);
            w.result("w", "net weight, positive sinks", "g*(m + phi*rho_w*pi*d^2/4 - rho_f*V/a)", chosen.si(), unit::N_PER_M, STATICS);
            w.result("w_e", "net weight empty", "g*(m - rho_f*V/a)", empty.si(), unit::N_PER_M, STATICS);
            w.result("w_f", "net weight filled with water", "g*(m + rho_w*pi*d^2/4 - rho_f*V/a)", full.si(), unit::N_PER_M, STATICS);
            if let Some(n) = neutral {
                w.result("phi_0", "share of water that makes it weightless", "(rho_f*V/a - m)/(rho_w*pi*d^2/4)", n, unit::ONE, STATICS);
            }
            w.derive("U", "utilisation", "abs(w)/min(abs(w_e), abs(w_f))", unit::ONE, STATICS);
        }))
        .note("A free water surface in a part-filled string runs to the low point; part filling needs a separate ballast line or compartments.")
        .advice()
}

/// Fluid pressure on ring and seals at the lowest place.
pub(super) fn external_pressure(c: &Context<'_>) -> Item {
    let p = c.project;
    let pipe = &p.string.pipe;
    let about = |basis| {
        About::new(
            "string.external-pressure",
            "fluid pressure outside against the seal's proof and the ring",
            Stage::Pull,
            basis,
        )
    };
    let lowest = p.line.lowest();
    let (low_md, low) = (lowest.md, lowest.level);
    let (entry, exit) = (p.line.sample(0.0).level, p.line.sample(p.line.length().si()).level);
    // The fluid runs out at the lower pit; the higher leg stands partly empty. Water inside runs out there, too.
    let surface = entry.min(exit);
    let fluid = p.fluid.density.si();
    let outside = Pressure::from_si(fluid * GRAVITY * (surface - low).si().max(0.0))
        + p.fluid.excess_pressure;
    let inside = match p.string.contents {
        Contents::Water => Pressure::from_si(
            Context::water_density().si() * GRAVITY * (surface - low).si().max(0.0),
        ),
        // A ballast line holds its water to itself; the string around it is at air pressure.
        Contents::Empty | Contents::Part(_) => Pressure::ZERO,
    };
    let pulled = (outside - inside).max(Pressure::ZERO);
    // Later the main may stand empty in the ground with the water outside.
    let levels = [p.site.free_water_level, p.site.groundwater_level];
    let water_level = levels.into_iter().flatten().reduce(Length::max);
    let water = water_level.map_or(Pressure::ZERO, |level| {
        Pressure::from_si(Context::water_density().si() * GRAVITY * (level - low).si().max(0.0))
    });
    let net = pulled.max(water);
    let ring = match service::ring_buckling(
        pipe.outside_diameter(),
        pipe.wall_min(),
        pipe.modulus(),
        service::POISSON,
        0.0,
    ) {
        Ok(ring) => ring,
        Err(e) => return about(STATICS).not_assessed(&[], e.to_string()),
    };
    let ring_limit = ring / p.factors.buckling;
    let proof = p.string.joint.seal_external_proof.as_ref();
    let Some(proof) = proof else {
        return about(STATICS)
            .not_assessed(
                &["/string/joint/external_pressure"],
                "the outside pressure for which the joint's seal was proved is not known",
            )
            .acting(Reading::new(net.si(), unit::KPA))
            .at(low_md);
    };
    let (limit, basis, who) = if proof.value < ring_limit {
        (proof.value, proof.source.clone(), "the seal's proof pressure")
    } else {
        (
            ring_limit,
            p.source_of("/factors/buckling"),
            "the ring's buckling pressure over its safety",
        )
    };
    let later = match water_level {
        Some(level) if water > pulled => {
            format!(
                "; the water outside up to {level} presses harder on the main when it is emptied later: {water}"
            )
        }
        Some(_) => String::new(),
        None => {
            "; no water level is given, so that the emptied main in service is left out".to_owned()
        }
    };
    let because = format!(
        "at the lowest place {outside} act outside ({} above the fluid's own head), {inside} inside; {who} governs (seal {}, ring {ring_limit}){later}",
        p.fluid.excess_pressure, proof.value
    );
    let kpa = |q: Pressure| Reading::new(q.si(), unit::KPA);
    about(basis)
        .at_most(kpa(net), kpa(limit), p.factors.attention, because)
        .at(low_md)
        .worked(c.working(|w| {
            w.given_from("rho_f", "density of the fluid", fluid, unit::KG_PER_M3, p.source_of("/fluid/density"));
            from_line(w, "z_s", "level to which fluid stands: the lower pit", surface.si(), unit::M);
            from_line(w, "z", "lowest level of the axis", low.si(), unit::M);
            w.given_from("p_s", "pressure above the static head", p.fluid.excess_pressure.si(), unit::KPA, p.source_of("/fluid/excess_pressure"));
            gravity(w);
            w.result("p_out", "pressure outside", "rho_f*g*max(z_s - z, 0) + p_s", outside.si(), unit::KPA, STATICS);
            from_statics(w, "p_in", "pressure of the water inside, up to the lower pit", inside.si(), unit::KPA);
            let pull = "max(p_out - p_in, 0)";
            if let Some(level) = water_level {
                w.derive("p_pull", "net pressure during the pull", pull, unit::KPA, STATICS);
                w.given("z_w", "highest level of free water and groundwater", level.si(), unit::M);
                water_density(w);
                w.result("p_w", "pressure of that water on the emptied main", "rho_w*g*max(z_w - z, 0)", water.si(), unit::KPA, STATICS);
                w.derive("p", "the higher of both", "max(p_pull, p_w)", unit::KPA, STATICS);
            } else {
                w.derive("p", "net pressure during the pull", pull, unit::KPA, STATICS);
            }
            c.outside_diameter(w);
            c.wall_min(w);
            w.given_from("E", "modulus of elasticity", pipe.modulus().si(), unit::GPA, pipe.data().modulus.source.clone());
            w.given_from("nu", "Poisson's ratio", service::POISSON, unit::ONE, Source::new("0.25 in EN handbooks, 0.28 in AWWA guides", Evidence::FromMemory));
            w.result("p_cr", "buckling pressure of the free round ring", "2*E/(1 - nu^2)*(e/(DE - e))^3", ring.si(), unit::KPA, Source::new("theory of thin rings", Evidence::Derived));
            w.given_from("S", "safety against buckling", p.factors.buckling, unit::ONE, p.source_of("/factors/buckling"));
            w.given_from("p_seal", "outside pressure for which the seal was proved", proof.value.si(), unit::KPA, proof.source.clone());
            w.derive("p_lim", "limit", "min(p_cr/S, p_seal)", unit::KPA, STATICS);
            w.derive("U", "utilisation", "p/p_lim", unit::ONE, STATICS);
        }))
        .note("Water in the string takes away most of this pressure; grout in the annulus acts like a heavier fluid.")
}
