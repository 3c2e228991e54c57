//! Every check of a renewal, in the order of the work.

use project::Renewal;
use quantity::Force;
use working::{Evidence, Source};

use super::context::Context;
use crate::assessment::Reading;
use crate::item::Item;

mod coating;
mod curves;
mod force;
mod force_lines;
mod head;
mod host;
pub(super) mod movement;
pub(super) mod pits;
mod string;
mod wall;

const RATIO: Source = Source::new("demand over limit", Evidence::Derived);
const COUNT: Source = Source::new("count over the runs", Evidence::Derived);

fn kilonewtons(force: Force) -> Reading {
    Reading::new(force.si(), quantity::unit::KN)
}

type Make = fn(&Context<'_>) -> Item;

/// Checks of host and head.
const FIRST: &[(&str, Make)] = &[
    ("host.material", host::material),
    ("host.asbestos", host::asbestos),
    ("host.features", host::features),
    ("host.services", host::services),
    ("host.supply", host::supply),
    ("burst.expander", head::expander),
    ("burst.coating", coating::coating),
    ("burst.class", head::class),
    ("burst.run-length", run_length),
    ("line.joint-angle", curves::joint_angle),
    ("burst.force.rig", force::rig),
    ("burst.reaction-wall", wall::reaction_wall),
    ("pull.joint-force", string::joint_force),
    ("pull.barrel", string::barrel),
    ("burst.heave", movement::heave),
    ("burst.settlement", movement::settlement),
];

/// Checks of pits and the finished main.
const LAST: &[(&str, Make)] = &[
    ("burst.pit", pits::launch),
    ("burst.machine-pit", pits::machine),
    ("service.pressure", string::service),
];

/// The longest run is a rule of thumb: a longer one asks for attention and does not fail.
fn run_length(context: &Context<'_>) -> Item {
    head::run_length(context).advice()
}

/// Makes every check.
pub(super) fn all(context: &Context<'_>) -> Vec<Item> {
    let made = |list: &[(&str, Make)]| -> Vec<Item> {
        let asked = list.iter().filter(|(id, _)| applies(context.renewal, id));
        asked.map(|(_, make)| make(context)).collect()
    };
    [made(FIRST), movement::neighbours(context), made(LAST)].into_iter().flatten().collect()
}

/// Whether a check says anything on a renewal: asbestos only where there is any.
fn applies(renewal: &Renewal, id: &str) -> bool {
    id != "host.asbestos" || host::has_asbestos(renewal)
}

/// Ids of all checks, in the order of the work.
pub(super) fn ids(renewal: &Renewal) -> Vec<String> {
    let of = |list: &[(&str, Make)]| -> Vec<String> {
        let asked = list.iter().filter(|(id, _)| applies(renewal, id));
        asked.map(|(id, _)| (*id).to_owned()).collect()
    };
    [of(FIRST), movement::ids(renewal), of(LAST)].concat()
}

/// Makes one check; `None` for an id that the renewal has not got.
pub(super) fn one(context: &Context<'_>, id: &str) -> Option<Item> {
    let known = FIRST.iter().chain(LAST).find(|(known, _)| *known == id);
    match known {
        Some((id, make)) => applies(context.renewal, id).then(|| make(context)),
        None => movement::neighbours(context).into_iter().find(|item| item.check.id == id),
    }
}
