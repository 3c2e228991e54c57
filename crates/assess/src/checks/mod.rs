//! Every check, in the order of the work.

use project::Project;
use quantity::{Angle, Length, unit};
use working::{Evidence, Source};

use crate::assessment::Reading;
use crate::context::Context;
use crate::item::Item;

mod barrel;
mod bore;
mod clearance;
mod curves;
mod ends;
mod fluid;
mod ground;
mod pull;
mod restart;
mod rig;
mod service;
mod string;

pub(crate) use self::fluid::{NOZZLE, NOZZLE_SOURCE};
pub(crate) use self::ground::{NEAR_END, ON_LINE, SHORT, trough_factor};
pub(crate) use self::service::{PressureCase, pressure_of};

const RATIO: Source = Source::new("demand over limit", Evidence::Derived);
const GEOMETRY: Source = Source::new("plane geometry, exact", Evidence::Derived);

fn metres(length: Length) -> Reading {
    Reading::new(length.si(), unit::M)
}

fn degrees(angle: Angle) -> Reading {
    Reading::new(angle.si(), unit::DEG)
}

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

/// Checks of ground and bore, before those of movement and of each stage of drilling.
const BORE: &[(&str, Make)] =
    &[("ground.suitability", ground::suitability), ("bore.diameter", bore::diameter)];

/// Checks of fluid, string and pull.
const REST: &[(&str, Make)] = &[
    ("fluid.restart", fluid::restart),
    ("fluid.returns", fluid::returns),
    ("fluid.pump", fluid::pump),
    ("string.buoyancy", string::buoyancy),
    ("string.external-pressure", string::external_pressure),
    ("pull.joint-force", pull::joint_force),
    ("pull.barrel", barrel::barrel),
    ("pull.rods", rig::rods),
    ("pull.rig", rig::rig),
    ("pull.restart", restart::restart),
    ("service.pressure", service::pressure),
];

/// Checks of which a crossing has as many as it has obstacles or stages.
type MakeAll = fn(&Context<'_>) -> Vec<Item>;

/// Makes every check of a crossing.
pub(crate) fn all(context: &Context<'_>) -> Vec<Item> {
    let made = |list: &[(&str, Make)]| list.iter().map(|(_, make)| make(context)).collect();
    let parts: [Vec<Item>; 6] = [
        made(LINE),
        clearance::obstacles(context),
        made(BORE),
        fluid::limit_pressures(context),
        made(REST),
        ground::movements(context),
    ];
    parts.into_iter().flatten().collect()
}

/// Ids of all checks of a crossing, in the order of the work.
pub(crate) fn ids(project: &Project) -> Vec<String> {
    let of =
        |list: &[(&str, Make)]| list.iter().map(|(id, _)| (*id).to_owned()).collect::<Vec<_>>();
    let obstacles = project::obstacle_ids(&project.site.obstacles);
    [
        of(LINE),
        obstacles.iter().map(|id| clearance::id(id)).collect(),
        of(BORE),
        fluid::ids(project),
        of(REST),
        ground::ids(project),
    ]
    .concat()
}

/// Makes one check; `None` for an id that the crossing has not got.
pub(crate) fn one(context: &Context<'_>, id: &str) -> Option<Item> {
    let known = LINE.iter().chain(BORE).chain(REST).find(|(known, _)| *known == id);
    if let Some((_, make)) = known {
        return Some(make(context));
    }
    let many: [(&str, MakeAll); 3] = [
        ("line.clearance.", clearance::obstacles),
        ("fluid.limit-pressure.", fluid::limit_pressures),
        ("ground.", ground::movements),
    ];
    let (_, make) = many.into_iter().find(|(start, _)| id.starts_with(start))?;
    make(context).into_iter().find(|item| item.check.id == id)
}
