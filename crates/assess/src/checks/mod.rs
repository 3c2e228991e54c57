//! Every check, in the order of the work.

use crate::context::Context;
use crate::item::Item;

mod bore;
mod clearance;
mod curves;
mod ends;
mod pull;
mod restart;
mod service;
mod string;

type Make = fn(&Context<'_>) -> Item;

/// Checks of the line, before those of each obstacle.
const LINE: &[(&str, Make)] = &[
    ("line.entry-angle", ends::entry_angle),
    ("line.exit-angle", ends::exit_angle),
    ("line.straight-entry", ends::straight_entry),
    ("line.straight-exit", ends::straight_exit),
    ("line.radius-rods", curves::radius_rods),
    ("line.radius-pipe", curves::radius_pipe),
    ("line.joint-angle", curves::joint_angle),
    ("line.barrel-fit", curves::barrel_fit),
    ("line.cover", clearance::cover),
];

/// Checks of bore, string and pull.
const REST: &[(&str, Make)] = &[
    ("bore.diameter", bore::diameter),
    ("string.buoyancy", string::buoyancy),
    ("string.external-pressure", string::external_pressure),
    ("pull.joint-force", pull::joint_force),
    ("pull.barrel", pull::barrel),
    ("pull.rods", pull::rods),
    ("pull.rig", pull::rig),
    ("pull.restart", restart::restart),
    ("service.pressure", service::pressure),
];

/// Makes every check of a crossing.
pub(crate) fn all(context: &Context<'_>) -> Vec<Item> {
    let mut items: Vec<_> = LINE.iter().map(|(_, make)| make(context)).collect();
    items.extend(clearance::obstacles(context));
    items.extend(REST.iter().map(|(_, make)| make(context)));
    items
}

/// Makes one check; `None` for an id that the crossing has not got.
pub(crate) fn one(context: &Context<'_>, id: &str) -> Option<Item> {
    let known = LINE.iter().chain(REST).find(|(known, _)| *known == id);
    match known {
        Some((_, make)) => Some(make(context)),
        None => clearance::obstacles(context).into_iter().find(|item| item.check.id == id),
    }
}
