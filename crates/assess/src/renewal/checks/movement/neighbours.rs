//! Movement of what lies near, and what the head would strike.

use ground::{buried_displacement, near_displacement};
use project::{Neighbour, NeighbourPlace, Renewal, Run};
use pull::bursting;
use quantity::{Length, unit};
use working::{Evidence, Source};

use super::{FIELD, GEOMETRY, INCOMPRESSIBLE, Volumes, millimetres, volume_lines, volumes};
use crate::assessment::Stage;
use crate::context::Missing;
use crate::item::{About, Item};
use crate::renewal::checks::RATIO;
use crate::renewal::context::{Context, mm};

/// Words of the ids of the neighbours.
fn names(renewal: &Renewal) -> Vec<String> {
    project::ids_of_names(renewal.street.neighbours.iter().map(|n| n.name.as_str()), "neighbour")
}

/// Ids of the checks of the neighbours.
pub(in crate::renewal::checks) fn ids(renewal: &Renewal) -> Vec<String> {
    names(renewal).into_iter().map(|name| format!("burst.neighbour.{name}")).collect()
}

/// One check for each neighbour.
pub(in crate::renewal::checks) fn neighbours(c: &Context<'_>) -> Vec<Item> {
    let list = c.renewal.street.neighbours.iter().zip(ids(c.renewal)).enumerate();
    list.map(|(i, (n, id))| neighbour(c, i, n, id)).collect()
}

/// The place at which a neighbour is moved most.
struct Moved {
    at: Length,
    volumes: Volumes,
    /// Depth of the axis, of the nearest edge of the neighbour, and its horizontal distance.
    axis_depth: Length,
    edge_depth: Length,
    offset: Length,
    up: Length,
    sideways: Length,
    /// Movement without a surface.
    near: Length,
    /// From the axis of the old main to the nearest edge.
    distance: Length,
    /// From axis to axis.
    axes: Length,
}

impl Moved {
    /// In the half-space.
    fn in_half_space(&self) -> Length {
        Length::from_si(self.up.si().hypot(self.sideways.si()))
    }

    /// The larger of the half-space, which lets the surface rise, and of ground without a surface.
    fn movement(&self) -> Length {
        self.in_half_space().max(self.near)
    }
}

fn moved_at(
    c: &Context<'_>,
    run: &Run,
    n: &Neighbour,
    at: Length,
    offset: Length,
) -> Result<Moved, Missing> {
    let refused = |because: String| Missing { keys: Vec::new(), because };
    let r = c.renewal;
    let volumes = volumes(c, run, at)?;
    let axis_level = r.host.axis.level_extended(at);
    let ground = r.street.ground.level_extended(at);
    let (across, rise) = (offset.abs().si(), (n.level - axis_level).si());
    let axes = across.hypot(rise);
    let radius = n.diameter.si() / 2.0;
    let distance = axes - radius;
    if n.level > ground {
        return Err(refused(format!("its axis lies above the ground at chainage {at}")));
    }
    let toward = distance / axes;
    let (offset, rise) = (across * toward, rise * toward);
    let axis_depth = ground - axis_level;
    let edge_depth = axis_depth - Length::from_si(rise);
    let field = buried_displacement(
        volumes.passing,
        axis_depth,
        Length::from_si(offset),
        edge_depth.max(Length::ZERO),
        INCOMPRESSIBLE,
    );
    let (up, sideways) = field.map_err(|e| refused(e.to_string()))?;
    let near = near_displacement(volumes.passing, Length::from_si(distance))
        .map_err(|e| refused(e.to_string()))?;
    Ok(Moved {
        at,
        volumes,
        axis_depth,
        edge_depth: edge_depth.max(Length::ZERO),
        offset: Length::from_si(offset),
        up,
        sideways,
        near,
        distance: Length::from_si(distance),
        axes: Length::from_si(axes),
    })
}

/// Every run and place at which a neighbour may be moved, with its horizontal distance.
fn passings<'a>(c: &Context<'a>, n: &Neighbour) -> Vec<(&'a Run, Length, Length)> {
    let runs = c.renewal.runs.iter();
    match n.place {
        NeighbourPlace::Crossing { at } => {
            runs.filter(|run| run.holds(at)).map(|run| (run, at, Length::ZERO)).collect()
        }
        NeighbourPlace::Beside { from, to, offset } => {
            let beside = |x: &Length| (*x - from).si() >= -1e-9 && (to - *x).si() >= -1e-9;
            runs.flat_map(|run| {
                let places = c.places(run).into_iter().filter(beside);
                places.map(move |x| (run, x, offset)).collect::<Vec<_>>()
            })
            .collect()
        }
    }
}

fn most_moved(c: &Context<'_>, n: &Neighbour) -> Result<Option<Moved>, Missing> {
    let mut worst: Option<Moved> = None;
    for (run, at, offset) in passings(c, n) {
        let moved = moved_at(c, run, n, at, offset)?;
        if worst.as_ref().is_none_or(|w| moved.movement() > w.movement()) {
            worst = Some(moved);
        }
    }
    Ok(worst)
}

/// Where the head would strike a neighbour, and the distance of the axes there: the least of all.
fn strike(c: &Context<'_>, n: &Neighbour) -> Option<(Length, Length, Length)> {
    let axis = &c.renewal.host.axis;
    let of = |(run, at, offset): (&Run, Length, Length)| {
        let expander = volumes(c, run, at).ok()?.expander;
        let axes = Length::from_si(offset.si().hypot((n.level - axis.level_extended(at)).si()));
        (axes <= (expander + n.diameter) / 2.0).then_some((at, axes, expander))
    };
    passings(c, n).into_iter().filter_map(of).reduce(|a, b| if b.1 < a.1 { b } else { a })
}

/// A neighbour that the head would strike.
fn struck(
    c: &Context<'_>,
    about: About,
    n: &Neighbour,
    (at, axes, expander): (Length, Length, Length),
) -> Item {
    let least = (expander + n.diameter) / 2.0;
    let because = format!(
        "the head would strike it: {} between the axes at chainage {at}, where expander and {} take {}; it must be moved, or the line",
        mm(axes),
        n.name,
        mm(least)
    );
    about
        .at_least(millimetres(axes), millimetres(least), c.renewal.factors.attention, because)
        .at(at)
        .fail_when(true)
        .worked(if axes.si() > 0.0 {
            c.working(|w| {
                w.given_from(
                    "D_e",
                    "expander",
                    expander.si(),
                    unit::MM,
                    c.renewal.source_of("/burst/expander_diameter"),
                );
                w.given("D", "outside diameter of the neighbour", n.diameter.si(), unit::MM);
                w.found(
                    "e",
                    "distance of the axes",
                    "sideways and in height",
                    axes.si(),
                    unit::MM,
                    GEOMETRY,
                );
                w.result(
                    "e_0",
                    "least distance without a strike",
                    "(D_e + D)/2",
                    least.si(),
                    unit::MM,
                    GEOMETRY,
                );
                w.derive("U", "utilisation", "e_0/e", unit::ONE, RATIO);
            })
        } else {
            None
        })
}

/// Why nothing passes a neighbour.
fn not_passed(c: &Context<'_>, n: &Neighbour) -> String {
    let axis = &c.renewal.host.axis;
    let (from, to) = match n.place {
        NeighbourPlace::Crossing { at } => (at, at),
        NeighbourPlace::Beside { from, to, .. } => (from, to),
    };
    if to < axis.from() || from > axis.to() {
        format!("it lies beyond the ends of the old main, {} to {}", axis.from(), axis.to())
    } else {
        "no run passes it".to_owned()
    }
}

fn neighbour(c: &Context<'_>, index: usize, n: &Neighbour, id: String) -> Item {
    let key = format!("/site/neighbour/{index}/allowance");
    let about = About::new(
        id,
        format!("movement of {} ({}) while the head passes", n.name, n.kind),
        Stage::Pull,
        FIELD,
    );
    if let Some(found) = strike(c, n) {
        return struck(c, about, n, found);
    }
    let moved = match most_moved(c, n) {
        Err(m) => return about.not_assessed(&[], m.because).missing(&m.keys),
        Ok(None) => return about.not_assessed(&[], not_passed(c, n)),
        Ok(Some(moved)) => moved,
    };
    let movement = moved.movement();
    let Some(allowance) = n.allowance else {
        let because = "the movement that it bears is not given";
        return about.not_assessed(&[&key], because).acting(millimetres(movement)).at(moved.at);
    };
    let v = &moved.volumes;
    let rules = match bursting::burst_clearance(v.expander, v.host) {
        Ok(rules) => rules,
        Err(e) => return about.not_assessed(&[], e.to_string()),
    };
    let ten = rules.separation;
    let closer = moved.axes < ten;
    let dense = c.renewal.fill.dense && moved.axes < rules.separation_dense;
    let because = format!(
        "{} {} and {} sideways at its nearest edge, {} from the axis of the old main, {} if there were no surface to rise; ten times the expansion are {ten}, there are {}{}",
        mm(moved.up.abs()),
        if moved.up.si() < 0.0 { "down" } else { "up" },
        mm(moved.sideways),
        moved.distance,
        mm(moved.near),
        moved.axes,
        if closer {
            ": expose it before the head passes".to_owned()
        } else if dense {
            format!(
                "; in dense ground up to {}: consider to expose it, and watch it",
                rules.separation_dense
            )
        } else {
            String::new()
        }
    );
    about
        .at_most(millimetres(movement), millimetres(allowance), c.renewal.factors.attention, because)
        .at(moved.at)
        .attend(closer || dense)
        .worked(c.working(|w| {
            volume_lines(c, v, w);
            w.found("h", "depth of the axis of the old main", "ground line less axis", moved.axis_depth.si(), unit::M, GEOMETRY);
            w.found("x", "horizontal distance of the neighbour's nearest edge", "towards the old main", moved.offset.si(), unit::M, GEOMETRY);
            w.found("z", "depth of that edge", "ground line less its level", moved.edge_depth.si(), unit::M, GEOMETRY);
            w.found("u_z", "movement upwards", "half-space of constant volume at (x, z)", moved.up.si(), unit::MM, FIELD);
            w.found("u_x", "movement sideways", "half-space of constant volume at (x, z)", moved.sideways.si(), unit::MM, FIELD);
            from_axis(&moved, w);
            w.result("u", "movement, the larger", "max(sqrt(u_z^2 + u_x^2), u_n)", movement.si(), unit::MM, FIELD);
            w.derive("d_10", "ten times the expansion", "10*(D_e - d_i)", unit::M, bursting::TEN_TIMES.source());
            w.given("u_lim", "movement that it bears", allowance.si(), unit::MM);
            w.derive("U", "utilisation", "u/u_lim", unit::ONE, RATIO);
        }))
        .note("The rule of ten times the expansion allows more movement the larger the main is: look at the movement, too. A stiff continuous pipe bridges and moves less than the ground; joints and brittle pipe do not.")
}

/// Movement without a surface, symbol `u_n`.
fn from_axis(moved: &Moved, w: &mut working::Builder) {
    w.found(
        "r",
        "from the axis of the old main to that edge",
        "axes' distance less half the neighbour",
        moved.distance.si(),
        unit::M,
        GEOMETRY,
    );
    let near =
        Source::new("cylinder that grows in incompressible ground, exact", Evidence::Derived);
    w.result(
        "u_n",
        "movement if there were no surface",
        "sqrt(r^2 + V/pi) - r",
        moved.near.si(),
        unit::MM,
        near,
    );
}
