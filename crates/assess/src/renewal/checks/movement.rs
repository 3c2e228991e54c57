//! Movement of surface and neighbours.

use ground::{buried_displacement, near_displacement, surface_heave};
use project::{Neighbour, NeighbourPlace, Renewal};
use pull::bursting::{self, SocketedString};
use quantity::{Length, unit};
use working::{Evidence, Source};

use super::RATIO;
use crate::assessment::{Profile, Reading, Stage};
use crate::context::Missing;
use crate::item::{About, Item};
use crate::renewal::context::{Context, mm};
use crate::renewal::forces::SOCKET_LENGTH;

/// Poisson's ratio of ground that keeps its volume.
const INCOMPRESSIBLE: f64 = 0.5;
const FIELD: Source = Source::new(
    "field of a line that grows in an incompressible half-space (Sagaseta 1987; Verruijt and Booker 1996), held by tests",
    Evidence::Derived,
);
const VOLUME: Source =
    Source::new("volumes of expander, host's bore and string", Evidence::Derived);

/// Volumes per length that move the ground at a place, m3/m.
#[derive(Clone, Copy)]
struct Volumes {
    /// While the head passes.
    passing: f64,
    /// What closes behind it.
    closing: f64,
    expander: Length,
    host: Length,
}

fn volumes(c: &Context<'_>, at: Length) -> Result<Volumes, Missing> {
    let r = c.renewal;
    let stretch = c.stretch_at(at).ok_or_else(|| Missing {
        keys: vec!["/host/stretch".to_owned()],
        because: format!("no stretch of the old main is described at {at}"),
    })?;
    let host = stretch.inside_diameter;
    let expander = c.expander()?.max(host);
    let pipe = &r.string.pipe;
    let string = SocketedString {
        barrel_diameter: pipe.barrel_diameter(),
        socket_diameter: pipe.largest_diameter().unwrap_or(pipe.barrel_diameter()),
        socket_length: SOCKET_LENGTH,
        laying_length: pipe.laying_length(),
    };
    let ratio = r.factors.heave_ratio;
    let passing = ratio * bursting::displaced_volume(expander, host)?;
    let closing = bursting::closing_volume(expander, &string, host)?.max(0.0);
    Ok(Volumes { passing, closing, expander, host })
}

/// Where the surface moves most: least depth of the axis, largest growth.
fn worst_surface(c: &Context<'_>) -> Result<Option<(Length, Length, Volumes, Length)>, Missing> {
    let mut worst: Option<(Length, Length, Volumes, Length)> = None;
    for run in &c.renewal.runs {
        for x in c.places(run) {
            let (depth, v) = (c.axis_depth(x), volumes(c, x)?);
            let (up, _) = surface_heave(v.passing, depth, Length::ZERO, INCOMPRESSIBLE)
                .map_err(|e| Missing { keys: Vec::new(), because: e.to_string() })?;
            if worst.as_ref().is_none_or(|(_, _, _, most)| up > *most) {
                worst = Some((x, depth, v, up));
            }
        }
    }
    Ok(worst)
}

fn millimetres(v: Length) -> Reading {
    Reading::new(v.si(), unit::MM)
}

fn volume_lines(c: &Context<'_>, v: &Volumes, w: &mut working::Builder) {
    let r = c.renewal;
    w.given_from(
        "D_e",
        "expander",
        v.expander.si(),
        unit::MM,
        r.source_of("/burst/expander_diameter"),
    );
    w.given("d_i", "bore of the old main", v.host.si(), unit::MM);
    w.given_from(
        "eta",
        "share of the displaced volume that moves the ground",
        r.factors.heave_ratio,
        unit::ONE,
        r.source_of("/factors/heave_ratio"),
    );
    w.result(
        "V",
        "volume per length that moves the ground",
        "eta*pi/4*(D_e^2 - d_i^2)",
        v.passing,
        unit::L_PER_M,
        VOLUME,
    );
}

/// Heave of the surface while the head passes.
pub(super) fn heave(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let about =
        About::new("burst.heave", "heave of the surface while the head passes", Stage::Pull, FIELD);
    let (at, depth, v, up) = match worst_surface(c) {
        Err(m) => return about.not_assessed(&[], m.because).missing(&m.keys),
        Ok(None) => return about.not_assessed(&["/run"], "no run is given"),
        Ok(Some(worst)) => worst,
    };
    let Some(limit) = r.street.heave_limit else {
        let because = "the heave that the surface bears is not given";
        return about.not_assessed(&["/site/heave_limit"], because).acting(millimetres(up)).at(at);
    };
    let wedge = r.fill.trench_width.and_then(|width| {
        let volume = v.passing / r.factors.heave_ratio;
        bursting_wedge(volume, r.factors.heave_ratio, width)
    });
    let narrow = wedge.map_or(String::new(), |s| {
        format!("; if stiff trench walls sent it all straight up it would be {}", mm(s))
    });
    let rules = bursting::burst_clearance(v.expander, v.host);
    let shallow = rules.as_ref().is_ok_and(|rules| c.cover(at) < rules.cover);
    let ten = rules.map_or(String::new(), |rules| {
        format!(
            "; ten times the expansion are {} of cover (remembered), there are {}",
            rules.cover,
            c.cover(at)
        )
    });
    let because = format!(
        "least deep at chainage {at}, {depth} to the axis: {} are pushed aside{narrow}{ten}",
        quantity::show_briefly(v.passing, unit::L_PER_M)
    );
    about
        .at_most(millimetres(up), millimetres(limit), r.factors.attention, because)
        .at(at)
        .attend(shallow)
        .worked(c.working(|w| {
            volume_lines(c, &v, w);
            w.found("h", "depth of the axis", "ground line less axis", depth.si(), unit::M, FIELD);
            w.result("s", "heave above the axis", "V/(pi*h)", up.si(), unit::MM, FIELD);
            w.given("s_lim", "heave that the surface bears", limit.si(), unit::MM);
            w.derive("U", "utilisation", "s/s_lim", unit::ONE, RATIO);
        }))
        .note("Heave peaks with the head and falls behind it. In a narrow stiff trench the surface moves between the trench walls only, and more.")
}

fn bursting_wedge(volume: f64, ratio: f64, width: Length) -> Option<Length> {
    ground::trench_wedge(volume, ratio, width).ok()
}

/// Settlement from the peak once the gap has closed.
pub(super) fn settlement(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let about = About::new(
        "burst.settlement",
        "settlement of the surface from its peak, once the gap around the string has closed",
        Stage::InService,
        FIELD,
    );
    let (at, depth, v, up) = match worst_surface(c) {
        Err(m) => return about.not_assessed(&[], m.because).missing(&m.keys),
        Ok(None) => return about.not_assessed(&["/run"], "no run is given"),
        Ok(Some(worst)) => worst,
    };
    let down = match surface_heave(v.closing, depth, Length::ZERO, INCOMPRESSIBLE) {
        Ok((down, _)) => down,
        Err(e) => return about.not_assessed(&[], e.to_string()),
    };
    let Some(limit) = r.street.settlement_limit else {
        let because = "the settlement that the surface bears is not given";
        return about
            .not_assessed(&["/site/settlement_limit"], because)
            .acting(millimetres(down))
            .at(at);
    };
    let left = up - down;
    let because = format!(
        "{} close between expander and string; what is left of the {} at the peak is {} {}",
        quantity::show_briefly(v.closing, unit::L_PER_M),
        mm(up),
        mm(left.abs()),
        if left.si() >= 0.0 { "of heave" } else { "of settlement" }
    );
    about
        .at_most(millimetres(down), millimetres(limit), r.factors.attention, because)
        .at(at)
        .worked(c.working(|w| {
            let pipe = &r.string.pipe;
            w.given_from("D_e", "expander", v.expander.si(), unit::MM, r.source_of("/burst/expander_diameter"));
            w.given_from("D_n", "barrel with coating", pipe.barrel_diameter().si(), unit::MM, Source::new("pipe and coating", Evidence::Computed));
            let socket = pipe.largest_diameter().unwrap_or(pipe.barrel_diameter());
            w.given_from("D_s", "socket with its protection", socket.si(), unit::MM, Source::new("pipe and protection", Evidence::Computed));
            w.given_from("l_s", "length of a socket", SOCKET_LENGTH.si(), unit::M, Source::new("0.10 to 0.25 m", Evidence::FromMemory));
            w.given_from("a", "laying length", pipe.laying_length().si(), unit::M, pipe.data().laying_length.source.clone());
            w.result("V_c", "volume per length that closes", "max(pi/4*(D_e^2 - D_n^2 - l_s/a*(D_s^2 - D_n^2)), 0)", v.closing, unit::L_PER_M, VOLUME);
            w.found("h", "depth of the axis", "ground line less axis", depth.si(), unit::M, FIELD);
            w.result("s", "settlement above the axis", "V_c/(pi*h)", down.si(), unit::MM, FIELD);
            w.given("s_lim", "settlement that the surface bears", limit.si(), unit::MM);
            w.derive("U", "utilisation", "s/s_lim", unit::ONE, RATIO);
        }))
        .note("It comes over weeks: restore the surface late. Sockets leave a wide gap around the barrels; lubricant that sets, or grout, keeps it open.")
}

/// Words of the ids of the neighbours.
fn names(renewal: &Renewal) -> Vec<String> {
    project::ids_of_names(renewal.street.neighbours.iter().map(|n| n.name.as_str()), "neighbour")
}

/// Ids of the checks of the neighbours.
pub(super) fn ids(renewal: &Renewal) -> Vec<String> {
    names(renewal).into_iter().map(|name| format!("burst.neighbour.{name}")).collect()
}

/// One check for each neighbour.
pub(super) fn neighbours(c: &Context<'_>) -> Vec<Item> {
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

fn moved_at(c: &Context<'_>, n: &Neighbour, at: Length, offset: Length) -> Result<Moved, Missing> {
    let refused = |because: String| Missing { keys: Vec::new(), because };
    let r = c.renewal;
    let volumes = volumes(c, at)?;
    let axis_level = r.host.axis.level_extended(at);
    let ground = r.street.ground.level_extended(at);
    let (across, rise) = (offset.abs().si(), (n.level - axis_level).si());
    let axes = across.hypot(rise);
    let radius = n.diameter.si() / 2.0;
    let distance = axes - radius;
    if distance <= volumes.expander.si() / 2.0 {
        let because = format!(
            "{} lies {} from the axis of the old main, inside the {} of the expander: it must be moved, or the line",
            n.name,
            mm(Length::from_si(distance)),
            mm(volumes.expander)
        );
        return Err(refused(because));
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

fn most_moved(c: &Context<'_>, n: &Neighbour) -> Result<Option<Moved>, Missing> {
    match n.place {
        NeighbourPlace::Crossing { at } => {
            if !c.in_a_run(at) {
                return Ok(None);
            }
            moved_at(c, n, at, Length::ZERO).map(Some)
        }
        NeighbourPlace::Beside { from, to, offset } => {
            let mut worst: Option<Moved> = None;
            for run in &c.renewal.runs {
                for x in c.places(run).into_iter().filter(|x| *x >= from && *x <= to) {
                    let moved = moved_at(c, n, x, offset)?;
                    if worst.as_ref().is_none_or(|w| moved.movement() > w.movement()) {
                        worst = Some(moved);
                    }
                }
            }
            Ok(worst)
        }
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
    let moved = match most_moved(c, n) {
        Err(m) => return about.not_assessed(&[], m.because).missing(&m.keys),
        Ok(None) => return about.not_assessed(&[], "no run passes it"),
        Ok(Some(moved)) => moved,
    };
    let movement = moved.movement();
    let Some(allowance) = n.allowance else {
        let because = "the movement that it bears is not given";
        return about.not_assessed(&[&key], because).acting(millimetres(movement)).at(moved.at);
    };
    let v = &moved.volumes;
    let ten = bursting::ten_times_rule(v.expander, v.host).unwrap_or(Length::ZERO);
    let closer = moved.axes < ten;
    let because = format!(
        "{} {} and {} sideways at its nearest edge, {} from the axis of the old main, {} if there were no surface to rise; ten times the expansion are {ten}, there are {}{}",
        mm(moved.up.abs()),
        if moved.up.si() < 0.0 { "down" } else { "up" },
        mm(moved.sideways),
        moved.distance,
        mm(moved.near),
        moved.axes,
        if closer { ": expose it before the head passes" } else { "" }
    );
    about
        .at_most(millimetres(movement), millimetres(allowance), c.renewal.factors.attention, because)
        .at(moved.at)
        .attend(closer)
        .worked(c.working(|w| {
            volume_lines(c, v, w);
            w.found("h", "depth of the axis of the old main", "ground line less axis", moved.axis_depth.si(), unit::M, FIELD);
            w.found("x", "horizontal distance of the neighbour's nearest edge", "towards the old main", moved.offset.si(), unit::M, FIELD);
            w.found("z", "depth of that edge", "ground line less its level", moved.edge_depth.si(), unit::M, FIELD);
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
        FIELD,
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

/// Heave of the surface along the runs.
pub(in crate::renewal) fn profiles(c: &Context<'_>) -> Vec<Profile> {
    let of_run = |(i, run): (usize, &project::Run)| {
        let mut points: Vec<(f64, f64)> = c
            .places(run)
            .into_iter()
            .filter_map(|x| {
                let v = volumes(c, x).ok()?;
                let up = surface_heave(v.passing, c.axis_depth(x), Length::ZERO, INCOMPRESSIBLE);
                Some((x.si(), up.ok()?.0.si()))
            })
            .collect();
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
        Profile {
            id: format!("burst.heave.{}", i + 1),
            title: format!("heave of the surface while the head passes, run {}", run.name),
            md: points.iter().map(|p| p.0).collect(),
            values: points.iter().map(|p| p.1).collect(),
            unit: "m",
        }
    };
    c.renewal.runs.iter().enumerate().map(of_run).collect()
}
