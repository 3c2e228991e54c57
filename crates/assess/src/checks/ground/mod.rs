//! The ground itself: whether it suits a bore, and how it moves.

use ground::{Obstacle, ObstacleKind};
use project::Project;

use crate::context::Context;
use crate::item::Item;

mod heave;
mod settlement;
mod suitability;
mod under;

pub(super) use self::suitability::suitability;
pub(crate) use self::suitability::{NEAR_END, ON_LINE, SHORT};
pub(crate) use self::under::trough_factor;

/// Obstacles that movement of the ground can harm, each with its index and the word of its ids.
fn movable(project: &Project) -> Vec<(usize, &Obstacle, String)> {
    let obstacles = &project.site.obstacles;
    let ids = project::obstacle_ids(obstacles);
    obstacles
        .iter()
        .zip(ids)
        .enumerate()
        .filter(|(_, (o, _))| o.kind != ObstacleKind::Watercourse)
        .map(|(i, (o, id))| (i, o, id))
        .collect()
}

/// Ids of the checks of settlement and heave, in the order in which they are made.
pub(super) fn ids(project: &Project) -> Vec<String> {
    let movable = movable(project);
    let of = |what: &str| movable.iter().map(|(.., id)| format!("ground.{what}.{id}")).collect();
    let (settlement, heave): (Vec<_>, Vec<_>) = (of("settlement"), of("heave"));
    [settlement, heave].concat()
}

/// Settlement and heave of every obstacle that movement can harm.
pub(super) fn movements(c: &Context<'_>) -> Vec<Item> {
    let movable = movable(c.project);
    let settlements = movable.iter().map(|(i, o, id)| settlement::check(c, *i, o, id));
    let heaves = movable.iter().map(|(i, o, id)| heave::check(c, *i, o, id));
    settlements.chain(heaves).collect()
}
