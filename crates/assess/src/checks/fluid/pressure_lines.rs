//! How the pressure at a place was obtained, line by line.

use fluid::PathPressure;
use quantity::unit;
use working::{Builder, Evidence, Source};

use super::STATICS;
use super::limit_pressure::SLOT;
use crate::context::Context;
use crate::ground_and_fluid::{BorePlace, Loss, SOCKET_LENGTH, StageSetup, Way, in_words};
use crate::quoted::{from_line, gravity};

/// Density of the fluid with cuttings, symbol `rho`.
pub(super) fn density_lines(c: &Context<'_>, setup: &StageSetup, w: &mut Builder) {
    let p = c.project;
    let Some(ratio) = setup.balance else {
        let source = p.source_of("/fluid/density");
        w.given_from(
            "rho",
            "density of the fluid with cuttings",
            setup.density.si(),
            unit::KG_PER_M3,
            source,
        );
        return;
    };
    let ground = Source::new("mean saturated unit weight along the bore", Evidence::Computed);
    let soil = c.fluid().shares.as_ref().map_or(f64::NAN, |s| s.density.si());
    w.given_from("rho_s", "density of the ground cut", soil, unit::KG_PER_M3, ground);
    let fresh = p.fluid.fresh_density.si();
    let source = p.source_of("/fluid/fresh_density");
    w.given_from("rho_f", "density of the fresh fluid", fresh, unit::KG_PER_M3, source);
    w.given_from("r", "fluid per ground cut", ratio, unit::ONE, c.ratio_source(&setup.id));
    let balance = Source::new("mass balance", Evidence::Derived);
    w.result(
        "rho",
        "density of the fluid with cuttings",
        "(rho_s + r*rho_f)/(1 + r)",
        setup.density.si(),
        unit::KG_PER_M3,
        balance,
    );
}

/// Loss per length along a way, symbol `J`.
pub(super) fn loss_lines(c: &Context<'_>, setup: &StageSetup, way: &Way, w: &mut Builder) {
    let source = c.project.source_of(setup.flow_key);
    w.given_from("Q_p", "flow pumped", setup.flow.si(), unit::L_PER_MIN, source);
    let flow = "with what the string displaces and drags along";
    if way.flow == setup.flow {
        w.derive("Q", "flow in the annulus", "Q_p", unit::L_PER_MIN, SLOT);
    } else {
        let surge = Source::new(
            "displaced volume and clinging fluid, Guo and Liu eq. 2.80",
            Evidence::Published,
        );
        w.found(
            "Q",
            "flow in the annulus that stands for it",
            flow,
            way.flow.si(),
            unit::L_PER_MIN,
            surge,
        );
    }
    w.given("D_h", "diameter of the bore on this way", way.hole.si(), unit::MM);
    w.given("d", "diameter of rods or barrel in it", way.string.si(), unit::MM);
    let Some(loss) = way.losses.chosen() else { return };
    fluid_lines(loss, "", w);
    annulus_lines(loss, "", "Q/(pi/4*(D_h^2 - d^2))", "D_h - d", w);
    let Some((socket, losses)) = &way.socket else {
        w.derive("J", "loss per length", "J_b", unit::PA_PER_M, SLOT);
        return;
    };
    w.given("d_s", "socket with its protection", socket.si(), unit::MM);
    if let Some(loss) = losses.chosen() {
        w.found(
            "tau_s",
            "stress at the wall beside a socket",
            "as tau_w, with the flow there",
            loss.wall_stress.si(),
            unit::PA,
            SLOT,
        );
        w.found(
            "J_s",
            "loss per length beside a socket",
            "as J_b",
            loss.gradient.si(),
            unit::PA_PER_M,
            SLOT,
        );
    }
    c.laying_length(w);
    let why = Source::new("socket with sleeve and cone", Evidence::Judgement);
    w.given_from("l_s", "length of a socket", SOCKET_LENGTH, unit::M, why);
    w.result(
        "J",
        "loss per length, sockets and barrels",
        "J_b + min(l_s/a, 1)*(J_s - J_b)",
        way.path.gradient.si(),
        unit::PA_PER_M,
        SLOT,
    );
}

fn fluid_lines(loss: &Loss, tail: &str, w: &mut Builder) {
    let law = &loss.law.rheology;
    let source = Source::owned(
        format!("{} law of the readings", in_words(loss.law.model)),
        Evidence::Computed,
    );
    let symbol = |s: &str| format!("{s}{tail}");
    w.given_from(
        &symbol("tau_y"),
        "yield stress of the fluid",
        law.yield_stress().si(),
        unit::PA,
        source.clone(),
    );
    w.given_from(
        &symbol("K_f"),
        "consistency of the fluid, Pa s^n",
        law.consistency(),
        unit::ONE,
        source.clone(),
    );
    w.given_from(&symbol("n"), "flow index of the fluid", law.flow_index(), unit::ONE, source);
}

fn annulus_lines(loss: &Loss, tail: &str, velocity: &str, gap: &str, w: &mut Builder) {
    let symbol = |s: &str| format!("{s}{tail}");
    w.result(&symbol("v"), "mean velocity", velocity, loss.velocity.si(), unit::M_PER_S, SLOT);
    let procedure = if loss.laminar {
        "root of v = h/2 n/(2n+1) (tau_w/K)^(1/n) (1-f)^((n+1)/n) (1 + n/(n+1) f), f = tau_y/tau_w, h half the difference of the diameters"
    } else {
        "friction factor of turbulent flow"
    };
    w.found(
        &symbol("tau_w"),
        "stress at the wall",
        procedure,
        loss.wall_stress.si(),
        unit::PA,
        SLOT,
    );
    w.found(
        &symbol("Re"),
        "Reynolds number of the annulus",
        "12 rho v^2/tau_w",
        loss.reynolds,
        unit::ONE,
        SLOT,
    );
    let formula = format!("4*{}/({gap})", symbol("tau_w"));
    if (loss.eccentric - 1.0).abs() < f64::EPSILON {
        w.result(
            &symbol("J_b"),
            "loss per length beside rods or barrel",
            &formula,
            loss.gradient.si(),
            unit::PA_PER_M,
            SLOT,
        );
    } else {
        let source = Source::new("Haciislamoglu and Langlinais 1990", Evidence::FromMemory);
        w.given_from(
            &symbol("R_e"),
            "factor for lying off the middle",
            loss.eccentric,
            unit::ONE,
            source,
        );
        let formula = format!("{}*{formula}", symbol("R_e"));
        w.result(
            &symbol("J_b"),
            "loss per length beside rods or barrel",
            &formula,
            loss.gradient.si(),
            unit::PA_PER_M,
            SLOT,
        );
    }
}

/// Pressure at a place, symbol `p`.
pub(super) fn pressure_lines(
    c: &Context<'_>,
    setup: &StageSetup,
    way: &Way,
    at: &BorePlace,
    pressure: PathPressure,
    w: &mut Builder,
) {
    density_lines(c, setup, w);
    loss_lines(c, setup, way, w);
    place_lines(c, way, at, w);
    w.result(
        "p_c",
        "column of fluid",
        "max(rho*g*(z_out - z), 0)",
        pressure.column.si(),
        unit::KPA,
        STATICS,
    );
    w.result("p_j", "friction on the way", "J*s", pressure.friction.si(), unit::KPA, STATICS);
    w.result("p", "pressure of the fluid", "p_c + p_j", pressure.total().si(), unit::KPA, STATICS);
}

/// Where the place lies: symbols `g`, `z_out`, `z`, `s`.
pub(super) fn place_lines(c: &Context<'_>, way: &Way, at: &BorePlace, w: &mut Builder) {
    gravity(w);
    from_line(w, "z_out", "level of the pit where fluid comes out", way.path.level.si(), unit::M);
    from_line(w, "z", "level of the axis", at.level.si(), unit::M);
    let along = if way.from_entry { at.md } else { c.project.line.length() - at.md };
    from_line(w, "s", "length of the way to that pit", along.si(), unit::M);
}
