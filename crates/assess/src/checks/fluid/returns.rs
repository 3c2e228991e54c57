use quantity::unit;

use super::pressure_lines::density_lines;
use crate::assessment::{Reading, Stage};
use crate::context::Context;
use crate::item::{About, Item};

/// Density of the returns by mass balance, the heaviest stage.
pub(in crate::checks) fn returns(c: &Context<'_>) -> Item {
    let p = c.project;
    let key = "/factors/ground/returns_density";
    let about = About::new(
        "fluid.returns",
        "density of the returns: does the fluid carry the ground out",
        Stage::Ream,
        p.source_of(key),
    )
    .rule();
    let run = c.fluid();
    if let Some(Err(m)) = run.setups.iter().find(|made| made.is_err()) {
        return about.not_assessed(&[], m.because.clone()).missing(&m.keys);
    }
    let heaviest = run.setups.iter().flatten();
    let heaviest = heaviest.max_by(|a, b| a.density.si().total_cmp(&b.density.si()));
    let Some(setup) = heaviest else {
        return about.not_assessed(&[], "no stage of drilling is known");
    };
    let limit = p.factors.ground.returns_density;
    let density = |v: quantity::Density| Reading::new(v.si(), unit::KG_PER_M3);
    let of = match setup.balance {
        Some(ratio) => format!(
            "with {ratio} parts of fluid for each part of ground cut the returns of the {} weigh {}",
            setup.name, setup.density
        ),
        None => format!("the fluid of the {} is given with {}", setup.name, setup.density),
    };
    let because = format!(
        "{of}; more fluid, or slower, makes them lighter, as do solids that are taken out and cuttings that stay in the bore"
    );
    about
        .at_most(density(setup.density), density(limit), p.factors.attention, because)
        .worked(c.working(|w| {
            density_lines(c, setup, w);
            w.given_from("rho_lim", "density up to which returns flow well", limit.si(), unit::KG_PER_M3, p.source_of(key));
            w.derive("m", "room", "rho_lim - rho", unit::KG_PER_M3, super::STATICS);
            w.derive("U", "utilisation", "rho/rho_lim", unit::ONE, super::STATICS);
        }))
        .note("In wide bores the fluid moves at 0.05 to 0.15 m/s: it carries cuttings by volume and gel strength, not by speed. Keep the tools turning.")
        .advice()
}
