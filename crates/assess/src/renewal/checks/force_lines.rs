//! How the forces of a run were obtained, line by line.

use project::{Stretch, Yields};
use pull::bursting;
use quantity::{Length, unit};
use working::{Builder, Evidence, Source};

use crate::renewal::context::Context;
use crate::renewal::forces::{
    CUT_LENGTH, PLANNING, PlaceForces, RunForces, SOCKET_LENGTH, spike_factors, touches, uplift,
};

const SUM: Source = Source::new(
    "sum of parts as in IPBA article 14, June 2012; weight, rods, curves and restart added from statics",
    Evidence::Derived,
);
const MEAN_STRESS: Source =
    Source::new("mean of the vertical and the horizontal stress of a prism", Evidence::Derived);

/// All parts of the force on the machine for planning; ends in `F_string` and `F_rig`.
pub(super) fn lines(c: &Context<'_>, f: &RunForces, w: &mut Builder) {
    let p = &f.worst;
    w.given_from(
        "x",
        "chainage of the head",
        p.at.si(),
        unit::M,
        Source::new("where the force is greatest", Evidence::Computed),
    );
    let run = c.renewal.runs.get(f.run);
    if let Some(stretch) = run.and_then(|run| c.stretch_in(run, p.at)) {
        breaking_lines(c, stretch, p, w);
        cone_lines(c, stretch, f, w);
    }
    string_lines(c, f, w);
    rest(f, w);
}

fn breaking_lines(c: &Context<'_>, stretch: &Stretch, p: &PlaceForces, w: &mut Builder) {
    let burst = &c.renewal.burst;
    let force = p.breaking[PLANNING];
    let index = c.renewal.host.stretches.iter().position(|s| s == stretch).unwrap_or(0);
    let strength = c.renewal.source_of(&format!("/host/stretch/{index}/strength"));
    w.given("t", "wall of the old main", stretch.wall.si(), unit::MM);
    w.given_from(
        "s_t",
        "strength of the old main",
        stretch.strength[PLANNING].si(),
        unit::MPA,
        strength,
    );
    w.given_from(
        "mu_c",
        "friction of the cone",
        burst.cone_friction,
        unit::ONE,
        c.renewal.source_of("/burst/cone_friction"),
    );
    w.given_from(
        "alpha",
        "half angle of the cone",
        burst.cone_half_angle.si(),
        unit::DEG,
        c.renewal.source_of("/burst/cone_half_angle"),
    );
    if !touches(c, stretch).unwrap_or(true) {
        w.found(
            "F_break",
            "the expander is not larger than the bore and breaks nothing",
            "see burst.expander",
            force.si(),
            unit::KN,
            Source::new("diameters", Evidence::Derived),
        );
        return;
    }
    let spike = if p.spike {
        w.given_from(
            "k_c",
            "force at a clamp or coupling over that in plain pipe",
            spike_factors()[PLANNING],
            unit::ONE,
            bursting::COUPLING_FACTORS.source.clone(),
        );
        "k_c*"
    } else {
        ""
    };
    if stretch.material.yields() == Yields::Split {
        let why = Source::new("sample value of the formula", Evidence::Judgement);
        w.given_from(
            "n_c",
            "blades that cut at the same time",
            f64::from(burst.cutters),
            unit::ONE,
            c.renewal.source_of("/burst/cutters"),
        );
        w.given_from("l", "length of the cut of one blade", CUT_LENGTH.si(), unit::MM, why);
        w.given_from(
            "d_t",
            "opening of the tear over the wall",
            bursting::SPLITTING_TEAR,
            unit::ONE,
            bursting::SPLITTING.source(),
        );
        w.result(
            "F_break",
            "splitting the old main",
            &format!("{spike}n_c*3.28*s_t*d_t^0.2*l^0.4*t^1.6*mu_c^0.4"),
            force.si(),
            unit::KN,
            bursting::SPLITTING.source(),
        );
    } else {
        let why = Source::new("fitting parameter, 20 to 100 mm", Evidence::Judgement);
        w.given_from(
            "l",
            "length in contact with the cone",
            bursting::CONTACT_LENGTH.si(),
            unit::MM,
            why,
        );
        let formula = &format!("{spike}2*pi*t*s_t*l*(tan(alpha) + mu_c)/(1 - mu_c*tan(alpha))");
        w.result(
            "F_break",
            "breaking the old main",
            formula,
            force.si(),
            unit::KN,
            bursting::BREAKING.source(),
        );
    }
}

fn cone_lines(c: &Context<'_>, stretch: &Stretch, f: &RunForces, w: &mut Builder) {
    let r = c.renewal;
    let p = &f.worst;
    let (Ok(soil), Ok(expander)) = (c.soil(), c.expander()) else { return };
    let index = r.fill.soil;
    let of = |key: &str| r.source_of(&format!("/ground/soil/{index}/{key}"));
    w.given("d_i", "bore of the old main", stretch.inside_diameter.si(), unit::MM);
    w.given_from(
        "D_e",
        "expander",
        expander.max(stretch.inside_diameter).si(),
        unit::MM,
        r.source_of("/burst/expander_diameter"),
    );
    w.given_from(
        "gamma",
        "unit weight of the fill",
        soil.unit_weight.si(),
        unit::KN_PER_M3,
        of("unit_weight"),
    );
    w.found(
        "H",
        "ground above the barrel here",
        "ground line less crown of the new barrel",
        p.cover.si(),
        unit::M,
        Source::new("levels of the file", Evidence::Given),
    );
    w.given_from(
        "K",
        "horizontal over vertical stress of the fill",
        r.factors.stress_ratio,
        unit::ONE,
        r.source_of("/factors/stress_ratio"),
    );
    w.derive("p_0", "mean stress around the old main", "gamma*H*(1 + K)/2", unit::KPA, MEAN_STRESS);
    w.given_from(
        "G",
        "shear modulus of the fill",
        soil.shear_modulus.map_or(f64::NAN, |g| g.si()),
        unit::MPA,
        of("shear_modulus"),
    );
    w.derive(
        "g_a",
        "growth of the cavity, 1 - (d_i/D_e)^2",
        "1 - (d_i/D_e)^2",
        unit::ONE,
        Source::new("areas before and after", Evidence::Derived),
    );
    match (soil.undrained_strength, soil.friction_angle) {
        (Some(strength), _) => {
            w.given_from(
                "s_u",
                "undrained strength of the fill",
                strength.si(),
                unit::KPA,
                of("undrained_strength"),
            );
            w.found(
                "p_cav",
                "pressure of a deep cavity",
                "p_0 + s_u*(1 + ln(G/s_u*g_a)) after first yield, p_0 + G*g_a before",
                p.cavity.si(),
                unit::KPA,
                bursting::CAVITY_CLAY.source(),
            );
        }
        (None, phi) => {
            w.given_from(
                "phi",
                "friction angle of the fill",
                phi.map_or(f64::NAN, |v| v.si()),
                unit::DEG,
                of("friction_angle"),
            );
            w.found("p_cav", "pressure of a deep cavity", "p_0*(1 + sin(phi))*(G/(p_0*sin(phi))*g_a)^(sin(phi)/(1 + sin(phi))) after first yield, p_0 + G*g_a before", p.cavity.si(), unit::KPA, bursting::CAVITY_SAND.source());
        }
    }
    w.given_from(
        "f",
        "uplift factor of the cover",
        uplift(c),
        unit::ONE,
        bursting::SHALLOW_CAP.source(),
    );
    w.result(
        "p_cap",
        "pressure that lifts the cover",
        "gamma*H*(1 + f*H/D_e)",
        p.cap.si(),
        unit::KPA,
        bursting::SHALLOW_CAP.source(),
    );
    w.derive(
        "p_e",
        "pressure on the cone, the smaller",
        "min(p_cav, p_cap)",
        unit::KPA,
        bursting::CONE.source(),
    );
    w.result(
        "F_cone",
        "pushing the ground aside",
        "p_e*pi*((D_e/2)^2 - (d_i/2)^2)*(1 + mu_c/tan(alpha))",
        p.cone[PLANNING].si(),
        unit::KN,
        bursting::CONE.source(),
    );
}

/// Drag and weight of the whole string; ends in `F_string`, the planning value at the end of the run.
pub(super) fn string_lines(c: &Context<'_>, f: &RunForces, w: &mut Builder) {
    let r = c.renewal;
    let Ok(soil) = c.soil() else { return };
    let pipe = &r.string.pipe;
    let Some(run) = r.runs.get(f.run) else { return };
    if !w.has("gamma") {
        let index = r.fill.soil;
        let source = r.source_of(&format!("/ground/soil/{index}/unit_weight"));
        w.given_from(
            "gamma",
            "unit weight of the fill",
            soil.unit_weight.si(),
            unit::KN_PER_M3,
            source,
        );
        w.given_from(
            "K",
            "horizontal over vertical stress of the fill",
            r.factors.stress_ratio,
            unit::ONE,
            r.source_of("/factors/stress_ratio"),
        );
    }
    w.given("L", "length of the run", run.length().si(), unit::M);
    w.found(
        "H_m",
        "ground above the barrel, mean over the run",
        "ground line less crown of the new barrel",
        f.cover.si(),
        unit::M,
        Source::new("levels of the file", Evidence::Given),
    );
    w.given_from(
        "D_n",
        "barrel with coating",
        pipe.barrel_diameter().si(),
        unit::MM,
        Source::new("pipe and coating", Evidence::Computed),
    );
    let socket = pipe.largest_diameter().map_or(f64::NAN, Length::si);
    w.given_from(
        "D_s",
        "socket with its protection",
        socket,
        unit::MM,
        Source::new("pipe and protection", Evidence::Computed),
    );
    w.given_from(
        "l_s",
        "length of a socket that bears",
        SOCKET_LENGTH.si(),
        unit::M,
        Source::new("0.10 to 0.25 m", Evidence::FromMemory),
    );
    let a = &pipe.data().laying_length;
    w.given_from("a", "laying length", a.value.si(), unit::M, a.source.clone());
    w.given_from(
        "mu",
        "friction of the string, planning",
        r.factors.friction[PLANNING],
        unit::ONE,
        r.source_of("/factors/friction"),
    );
    w.given_from(
        "chi",
        "share of the hole that has closed",
        r.factors.collapsed_share,
        unit::ONE,
        r.source_of("/factors/collapsed_share"),
    );
    let partly =
        "mu*gamma*H_m*(1 + K)/2*pi*((1 - chi)*D_s*l_s + chi*(D_s*l_s + D_n*(a - l_s)))*L/a";
    w.result(
        "F_part",
        "drag, partly collapsed hole",
        partly,
        f.drag.partly.si(),
        unit::KN,
        bursting::DRAG_SOCKETS.source(),
    );
    let guide = &f.drag.guide;
    w.found(
        "k_d",
        "share of the depth that the guide counts",
        "1, 2/3, 1/2 or 1/3 by depth over diameter",
        guide.depth_share,
        unit::ONE,
        bursting::DRAG_GUIDE.source(),
    );
    w.result(
        "F_guide",
        "drag by the planning guide",
        "0.25*gamma*k_d*H_m*pi*D_n*L*mu",
        guide.force.si(),
        unit::KN,
        bursting::DRAG_GUIDE.source(),
    );
    if let Some(step) = &guide.near_step {
        w.found(
            "F_step",
            "the guide on the other side of the near step",
            "depth over diameter passes a step within 10 %",
            step.force.si(),
            unit::KN,
            bursting::DRAG_GUIDE.source(),
        );
    }
    w.found(
        "F_low",
        "beside it: sockets only, low friction",
        "contact at the sockets of an open hole",
        f.drag.sockets.si(),
        unit::KN,
        bursting::DRAG_SOCKETS.source(),
    );
    w.found(
        "F_silo",
        "beside it: silo on the whole barrel, high friction",
        "Terzaghi, fill without cohesion",
        f.drag.silo.force.si(),
        unit::KN,
        bursting::DRAG_SILO.source(),
    );
    w.result(
        "F_prism",
        "beside it: prism on the whole barrel",
        "gamma*H_m*pi*D_n*L*mu",
        f.drag.prism.si(),
        unit::KN,
        bursting::DRAG_PRISM.source(),
    );
    w.derive(
        "F_drag",
        "drag for planning, the larger",
        "max(F_part, F_guide)",
        unit::KN,
        bursting::DRAG_SOCKETS.source(),
    );
    w.given_from(
        "w",
        "weight of the string per length, empty",
        pipe.weight_in_air().si(),
        unit::N_PER_M,
        Source::new("iron, lining, coating and sockets", Evidence::Computed),
    );
    w.found(
        "beta",
        "slope of the run in the direction of the pull",
        "rise over length",
        f.slope.si(),
        unit::DEG,
        Source::new("levels of the file", Evidence::Given),
    );
    w.given_from(
        "k_r",
        "factor at a restart",
        f.restart[PLANNING],
        unit::ONE,
        r.source_of("/factors/restart"),
    );
    w.found(
        "theta",
        "sum of the turns of the old main",
        "bends and changes of slope",
        f.turn.si(),
        unit::DEG,
        Source::new("levels and bends of the file", Evidence::Given),
    );
    let string = "(k_r*(F_drag + mu*w*L*cos(beta)) + w*L*sin(beta))*exp(mu*theta)";
    w.result(
        "F_string",
        "in the string at the end of the run",
        string,
        f.string[PLANNING].si(),
        unit::KN,
        SUM,
    );
}

fn rest(f: &RunForces, w: &mut Builder) {
    let p = &f.worst;
    w.found(
        "F_x",
        "in the string with the head here",
        "as F_string, in proportion to the length in the ground",
        p.string[PLANNING].si(),
        unit::KN,
        SUM,
    );
    w.found(
        "F_rods",
        "friction of the rods ahead of the head",
        "their weight times the friction",
        p.rods.si(),
        unit::KN,
        SUM,
    );
    w.result(
        "F_rig",
        "on the machine",
        "F_break + F_cone + F_x + F_rods",
        p.rig[PLANNING].si(),
        unit::KN,
        SUM,
    );
}
