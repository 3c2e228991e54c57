//! Rules and margins for fluid and ground.

use quantity::{Density, Length};

use crate::context::Context;
use crate::model::{GroundFactors, LimitCriterion};
use crate::tree::Tree;

pub(super) fn build(tree: &Tree, cx: &mut Context<'_>) -> Option<GroundFactors> {
    let mut ask = cx.ask(tree.one("factors.ground")?);
    let criterion = ask.word_or_default("limit_criterion");
    let mut number = |key: &str| ask.number_or_default(key);
    let [granular, fine, strain] =
        ["safety_granular", "safety_fine", "wall_strain"].map(&mut number);
    let [zone_granular, zone_fine] =
        ["plastic_zone_granular", "plastic_zone_fine"].map(&mut number);
    let overburden = number("overburden");
    let [density, closing] = ["returns_density", "annulus_closing"].map(&mut number);
    let [trough_granular, trough_fine] = ["trough_granular", "trough_fine"].map(&mut number);
    let [spacing, depth] = ["boring_spacing", "boring_depth"].map(&mut number);
    let word = criterion?;
    Some(GroundFactors {
        criterion: LimitCriterion::ALL.into_iter().find(|(w, _)| *w == word)?.1,
        safety_granular: granular?,
        safety_fine: fine?,
        overburden: overburden?,
        wall_strain: strain?,
        plastic_zone_granular: zone_granular?,
        plastic_zone_fine: zone_fine?,
        returns_density: Density::from_si(density?),
        annulus_closing: closing?,
        trough_granular: trough_granular?,
        trough_fine: trough_fine?,
        boring_spacing: Length::from_si(spacing?),
        boring_depth: Length::from_si(depth?),
    })
}
