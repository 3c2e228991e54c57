//! The street and what lies near the old main.

use ground::GroundLine;
use quantity::{Length, unit};

use super::unique_names;
use crate::context::{Ask, Context};
use crate::renewal::{Neighbour, NeighbourPlace, Street};
use crate::tree::{Record, Tree};
use crate::wording::shown;

pub(super) fn build(
    tree: &Tree,
    cx: &mut Context<'_>,
    ground: Option<GroundLine>,
    axis: Option<&GroundLine>,
) -> Option<Street> {
    let record = tree.one("site")?;
    let mut ask = cx.ask(record);
    let [water, heave, settlement] = ["groundwater_level", "heave_limit", "settlement_limit"]
        .map(|key| ask.number(key).map(|g| Length::from_si(g.value)));
    if let (Some(ground), Some(axis)) = (&ground, axis) {
        let mut ask = cx.ask(record);
        above_the_main(&mut ask, ground, axis);
        below_the_surface(&mut ask, ground, axis, water);
    }
    unique_names(tree, cx, "site.neighbour", "neighbours");
    let records: Vec<&Record> = tree.all("site.neighbour").collect();
    let neighbours: Vec<_> = records.into_iter().map(|r| neighbour(&mut cx.ask(r))).collect();
    Some(Street {
        ground: ground?,
        groundwater_level: water,
        heave_limit: heave,
        settlement_limit: settlement,
        neighbours: neighbours.into_iter().collect::<Option<_>>()?,
    })
}

/// The ground line must reach over the old main and lie above it.
fn above_the_main(ask: &mut Ask<'_, '_, '_>, ground: &GroundLine, axis: &GroundLine) {
    let (from, to) = (ground.from(), ground.to());
    if from > axis.from() || to < axis.to() {
        let message = format!(
            "the ground line reaches from {from} to {to}, the old main from {} to {}",
            axis.from(),
            axis.to()
        );
        ask.error("ground_too_short", "ground", message)
            .found(format!("{from} to {to}"))
            .allowed(format!("at least {} to {}", axis.from(), axis.to()))
            .hint("add points at both ends");
        return;
    }
    let places = ground.points().chain(axis.points()).map(|(x, _)| x);
    let inside = places.filter(|x| *x >= axis.from() && *x <= axis.to());
    let shallow = inside
        .filter_map(|x| Some((x, (ground.level_at(x).ok()? - axis.level_at(x).ok()?).si())))
        .min_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((x, depth)) = shallow
        && depth <= 0.0
    {
        let by = shown(-depth, unit::M);
        let message =
            format!("at chainage {x} the axis of the old main lies {by} above the ground line");
        ask.error("above_ground", "ground", message)
            .hint("check levels and chainages of ground and axis: both count from the same datum");
    }
}

/// Groundwater above the street would be open water, which nothing here reckons with.
fn below_the_surface(
    ask: &mut Ask<'_, '_, '_>,
    ground: &GroundLine,
    axis: &GroundLine,
    water: Option<Length>,
) {
    let Some(water) = water else { return };
    let places = ground.points().chain(axis.points()).map(|(x, _)| x);
    let inside = places.filter(|x| *x >= axis.from() && *x <= axis.to());
    let lowest = inside
        .filter_map(|x| Some((x, ground.level_at(x).ok()?)))
        .min_by(|a, b| a.1.si().total_cmp(&b.1.si()));
    if let Some((x, level)) = lowest
        && water > level
    {
        let message = format!(
            "groundwater_level must not lie above the ground line, {level} at chainage {x}, but was {water}"
        );
        ask.error("water_above_ground", "groundwater_level", message)
            .found(water.to_string())
            .allowed(format!("at most {level}"))
            .hint("open water over the main is not reckoned with; check that both levels count from the same datum");
    }
}

fn neighbour(ask: &mut Ask<'_, '_, '_>) -> Option<Neighbour> {
    let name = ask.text("name").map(|t| t.value);
    let kind = ask.word("kind").map(|w| w.value);
    let level = ask.number("level").map(|g| Length::from_si(g.value));
    let diameter = ask.number_or_default("diameter").map(Length::from_si);
    let allowance = ask.number("allowance").map(|g| Length::from_si(g.value));
    let place = place(ask);
    Some(Neighbour {
        name: name?,
        kind: kind?,
        place: place?,
        level: level?,
        diameter: diameter?,
        allowance,
    })
}

fn place(ask: &mut Ask<'_, '_, '_>) -> Option<NeighbourPlace> {
    const BESIDE: [&str; 3] = ["from", "to", "offset"];
    let beside = BESIDE.map(|key| ask.has(key)).contains(&true);
    if ask.has("at") {
        for key in BESIDE {
            let hint = "give at for what crosses, or from, to and offset for what runs beside";
            ask.refuse(key, "the neighbour crosses, because at is given", hint);
        }
        let at = ask.number("at")?;
        return (!beside).then(|| NeighbourPlace::Crossing { at: Length::from_si(at.value) });
    }
    if !beside {
        let message = "at, or from, to and offset, is missing: where the neighbour lies";
        ask.error("missing", "at", message)
            .hint("give at for what crosses, or from, to and offset for what runs beside");
        return None;
    }
    BESIDE.iter().for_each(|key| ask.require(key, "for a neighbour that runs beside"));
    let [from, to, offset] = BESIDE.map(|key| ask.number(key).map(|g| Length::from_si(g.value)));
    let (from, to, offset) = (from?, to?, offset?);
    if to <= from {
        let message = format!("to must be greater than from ({from}), but was {to}");
        ask.error("order", "to", message)
            .found(to.to_string())
            .allowed(format!("greater than {from}"));
        return None;
    }
    Some(NeighbourPlace::Beside { from, to, offset })
}
