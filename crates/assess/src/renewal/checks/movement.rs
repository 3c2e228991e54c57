//! Movement of the surface, and of what lies near.

use ground::{Trough, surface_heave};
use project::Run;
use pull::bursting::{self, SocketedString};
use quantity::{Length, unit};
use working::{Evidence, Source};

pub(super) use self::neighbours::{ids, neighbours};
use super::RATIO;
use crate::assessment::{Profile, Reading, Stage};
use crate::context::Missing;
use crate::item::{About, Item};
use crate::renewal::context::{Context, mm};
use crate::renewal::forces::{SOCKET_LENGTH, expansion};

mod neighbours;

/// Poisson's ratio of ground that keeps its volume.
const INCOMPRESSIBLE: f64 = 0.5;
const FIELD: Source = Source::new(
    "field of a line that grows in an incompressible half-space (Sagaseta 1987; Verruijt and Booker 1996), held by tests",
    Evidence::Derived,
);
const GEOMETRY: Source = Source::new("levels and distances of the file", Evidence::Derived);
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

fn volumes(c: &Context<'_>, run: &Run, at: Length) -> Result<Volumes, Missing> {
    let r = c.renewal;
    // Where two stretches meet, the smaller bore moves more ground.
    let here = c.stretches_of(run).filter(|s| at >= s.from && at <= s.to);
    let host = here.map(|s| s.inside_diameter).reduce(Length::min).ok_or_else(|| Missing {
        keys: vec!["/host/stretch".to_owned()],
        because: format!("no stretch of the old main is described at {at}"),
    })?;
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

/// Movement of the surface at a place.
#[derive(Clone, Copy)]
pub(in crate::renewal) struct Surface {
    pub at: Length,
    pub depth: Length,
    volumes: Volumes,
    /// Heave in the half-space, and straight up in the shape of a bell curve.
    half_space: Length,
    trough: Length,
    /// Why the bell curve counts, where it does.
    upward: Option<&'static str>,
    /// Settlement once the gap has closed.
    down: Length,
}

impl Surface {
    /// Heave that counts.
    fn up(&self) -> Length {
        if self.upward.is_some() { self.half_space.max(self.trough) } else { self.half_space }
    }

    /// Volume per length that moves the ground while the head passes, m3/m.
    pub fn passing(&self) -> f64 {
        self.volumes.passing
    }
}

/// Width of the bell curve over the depth of the axis.
// Judgement: 0.25 to 0.5 are remembered; one value for all ground, as the heave's shape is not known better.
pub(in crate::renewal) const TROUGH_WIDTH: f64 = 0.5;
/// Cover over the expander below which the ground goes straight up.
// Judgement: with less the half-space lets too much ground go sideways.
const SHALLOW: f64 = 5.0;
pub(in crate::renewal) const TROUGH: Source =
    Source::new("bell curve of tunnelling turned upside down, width 0.5 h", Evidence::FromMemory);

fn surface_at(c: &Context<'_>, run: &Run, at: Length) -> Result<Surface, Missing> {
    let refused = |e: ground::GroundError| Missing {
        keys: Vec::new(),
        because: format!("at chainage {at}: {e}"),
    };
    let (depth, volumes) = (c.axis_depth(at), volumes(c, run, at)?);
    let above = |v: f64| surface_heave(v, depth, Length::ZERO, INCOMPRESSIBLE).map_err(refused);
    let (half_space, _) = above(volumes.passing)?;
    let (down, _) = above(volumes.closing)?;
    let trough = Trough::new(volumes.passing, depth, TROUGH_WIDTH).map_err(refused)?.greatest();
    let cover = c.cover(at);
    let shallow = cover < volumes.expander * SHALLOW;
    // Where the pressures cannot be computed the ground may lift.
    let lifts = c
        .stretch_in(run, at)
        .is_none_or(|s| expansion(c, s, cover).map_or(true, |(cavity, cap)| cap < cavity));
    let upward = match (lifts, shallow) {
        (true, _) => Some("the cover lifts before a deep cavity opens"),
        (false, true) => Some("the cover is less than five times the expander"),
        (false, false) => None,
    };
    Ok(Surface { at, depth, volumes, half_space, trough, upward, down })
}

/// The place at which the surface moves most by a measure.
fn worst_surface(
    c: &Context<'_>,
    measure: impl Fn(&Surface) -> Length,
) -> Result<Option<Surface>, Missing> {
    let mut worst: Option<Surface> = None;
    for run in &c.renewal.runs {
        for x in c.places(run) {
            let here = surface_at(c, run, x)?;
            if worst.as_ref().is_none_or(|w| measure(&here) > measure(w)) {
                worst = Some(here);
            }
        }
    }
    Ok(worst)
}

/// The run and the place with the greatest heave.
pub(in crate::renewal) fn most_heaved<'a>(c: &Context<'a>) -> Option<(&'a Run, Surface)> {
    let worst = worst_surface(c, Surface::up).ok()??;
    let run = c.renewal.runs.iter().find(|run| run.holds(worst.at))?;
    Some((run, worst))
}

/// Where the new main would come out of the ground: the least cover, unless there is ground above the crown everywhere.
fn out_of_the_ground(c: &Context<'_>) -> Option<(Length, Length)> {
    let runs = c.renewal.runs.iter();
    let all = runs.flat_map(|run| c.places(run)).map(|x| (x, c.cover(x)));
    let least = all.reduce(|a, b| if b.1 < a.1 { b } else { a });
    least.filter(|(_, cover)| cover.si() <= 0.0)
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
    let mut about =
        About::new("burst.heave", "heave of the surface while the head passes", Stage::Pull, FIELD);
    if let Some((at, cover)) = out_of_the_ground(c) {
        let because = format!(
            "the crown of the new main would lie {} at chainage {at}: there is no cover to heave",
            if cover.si() < 0.0 {
                format!("{} above the ground", mm(cover.abs()))
            } else {
                "level with the ground".to_owned()
            }
        );
        let metres = |v: Length| Reading::new(v.si(), unit::M);
        return about
            .at_least(metres(cover), metres(Length::ZERO), r.factors.attention, because)
            .at(at)
            .fail_when(true);
    }
    let worst = match worst_surface(c, Surface::up) {
        Err(m) => return about.not_assessed(&[], m.because).missing(&m.keys),
        Ok(None) => return about.not_assessed(&["/run"], "no run is given"),
        Ok(Some(worst)) => worst,
    };
    let (at, depth, v, up) = (worst.at, worst.depth, worst.volumes, worst.up());
    if worst.upward.is_some() {
        about.basis = TROUGH;
    }
    let Some(limit) = r.street.heave_limit else {
        let because = "the heave that the surface bears is not given";
        return about.not_assessed(&["/site/heave_limit"], because).acting(millimetres(up)).at(at);
    };
    let wedge =
        r.fill.trench_width.and_then(|width| ground::trench_wedge(v.passing, 1.0, width).ok());
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
        "greatest at chainage {at}, {depth} to the axis: {} are pushed aside; {} where the ground spreads, {} straight up as a bell curve{}{ten}",
        quantity::show_briefly(v.passing, unit::L_PER_M),
        mm(worst.half_space),
        mm(worst.trough),
        match worst.upward {
            Some(why) => format!(": the larger counts, as {why}"),
            None => ": the cover is deep and does not lift, and the first counts".to_owned(),
        }
    );
    about
        .at_most(millimetres(up), millimetres(limit), r.factors.attention, because)
        .at(at)
        .attend(shallow)
        .worked(c.working(|w| {
            volume_lines(c, &v, w);
            w.found("h", "depth of the axis", "ground line less axis", depth.si(), unit::M, GEOMETRY);
            w.result("s_h", "heave above the axis, half-space", "V/(pi*h)", worst.half_space.si(), unit::MM, FIELD);
            w.given_from("k_i", "width of the bell curve over the depth", TROUGH_WIDTH, unit::ONE, TROUGH);
            w.result("s_g", "heave above the axis, bell curve", "V/(k_i*h*sqrt(2*pi))", worst.trough.si(), unit::MM, TROUGH);
            let counts = if worst.upward.is_some() { "max(s_h, s_g)" } else { "s_h" };
            w.result("s", "heave that counts", counts, up.si(), unit::MM, Source::owned(worst.upward.unwrap_or("deep cover that does not lift").to_owned(), Evidence::Judgement));
            w.given("s_lim", "heave that the surface bears", limit.si(), unit::MM);
            w.derive("U", "utilisation", "s/s_lim", unit::ONE, RATIO);
        }))
        .note("Heave peaks with the head and falls behind it. Traffic on the surface is not in it.")
        .note(wedge.map_or_else(
            || "In a narrow stiff trench the surface moves between the trench walls only, and more.".to_owned(),
            |s| format!("If stiff trench walls sent all of it straight up, it would be {} over the width of the trench.", mm(s)),
        ))
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
    let worst = match worst_surface(c, |s| s.down) {
        Err(m) => return about.not_assessed(&[], m.because).missing(&m.keys),
        Ok(None) => return about.not_assessed(&["/run"], "no run is given"),
        Ok(Some(worst)) => worst,
    };
    let (at, depth, v, down) = (worst.at, worst.depth, worst.volumes, worst.down);
    // Both in the half-space: the gap closes from all sides.
    let up = worst.half_space;
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
            w.found("h", "depth of the axis", "ground line less axis", depth.si(), unit::M, GEOMETRY);
            w.result("s", "settlement above the axis", "V_c/(pi*h)", down.si(), unit::MM, FIELD);
            w.given("s_lim", "settlement that the surface bears", limit.si(), unit::MM);
            w.derive("U", "utilisation", "s/s_lim", unit::ONE, RATIO);
        }))
        .note("It comes over weeks: restore the surface late. Sockets leave a wide gap around the barrels; lubricant that sets, or grout, keeps it open.")
}

/// Heave of the surface along the runs.
pub(in crate::renewal) fn profiles(c: &Context<'_>) -> Vec<Profile> {
    let of_run = |(i, run): (usize, &Run)| {
        let mut points: Vec<(f64, f64)> = c
            .places(run)
            .into_iter()
            .filter_map(|x| Some((x.si(), surface_at(c, run, x).ok()?.up().si())))
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
