//! Surroundings of the bore: ground line, water, cover, obstacles.

use ground::{GroundError, GroundLine, Obstacle, ObstacleKind, Shape, required_cover_under_road};
use pipe::{Nominal, Pipe};
use quantity::{Angle, Length, unit};

use super::bore_line::{End, LineOfFile};
use super::plausible;
use crate::context::{Ask, Context};
use crate::model::Site;
use crate::tree::{Record, Tree};
use crate::value::Reading;
use crate::wording::shown;

/// The end zone reaches to where the straight end would have this many times the required cover.
/// Judgement: a straight bore cannot have cover earlier; one fifth more.
const END_ZONE_FACTOR: f64 = 1.2;
/// Ends flatter than this have no end zone by rule: the tangent would reach the cover far beyond
/// any bore. 1 deg.
const FLATTEST: f64 = std::f64::consts::PI / 180.0;

/// The ground line; its faults stand at the point at fault.
pub(super) fn ground_line(tree: &Tree, cx: &mut Context<'_>) -> Option<GroundLine> {
    let mut ask = cx.ask(tree.one("site")?);
    let given = ask.reading("ground")?;
    let Reading::Rows(rows) = given.value else { return None };
    let points: Vec<_> = rows
        .iter()
        .filter_map(|row| match row.as_slice() {
            [x, z] => Some((Length::from_si(x.value), Length::from_si(z.value))),
            _ => None,
        })
        .collect();
    match GroundLine::new(&points) {
        Ok(line) => {
            plausible::slopes(cx, &rows);
            Some(line)
        }
        Err(faults) => {
            for fault in faults {
                let index = match &fault {
                    GroundError::NotRising { index, .. } => *index,
                    GroundError::NotFinite { index, .. } => *index,
                    _ => usize::MAX,
                };
                let cell = rows.get(index).and_then(|row| row.first());
                let place = cell.map_or_else(|| given.place.clone(), |c| c.place.clone());
                cx.report.error(fault.code(), &place, fault.to_string()).hint(
                    "write the points as [chainage, level] in the order of the chainage; for a \
                     steep bank put the second point a little further on",
                );
            }
            None
        }
    }
}

pub(super) fn build(
    tree: &Tree,
    cx: &mut Context<'_>,
    ground: Option<GroundLine>,
    line: &LineOfFile,
    pipe: Option<&Pipe>,
    bore_diameter: Option<Length>,
) -> Option<Site> {
    let record = tree.one("site")?;
    if let (Some(ground), Some(run)) = (&ground, line.run) {
        check_extent(&mut cx.ask(record), ground, run);
    }
    let mut ask = cx.ask(record);
    let water = ["free_water_level", "groundwater_level"].map(|key| {
        let level = ask.number(key).map(|g| Length::from_si(g.value));
        if let (Some(level), Some(entry), Some(exit)) = (level, line.entry.level, line.exit.level) {
            plausible::water(&mut ask, key, level, entry, exit);
        }
        level
    });
    let usual = pipe.and_then(|p| required_cover_under_road(size_for_cover(p)).ok());
    let required_cover = ask.number_or("required_cover", usual.map(|c| c.cover.si()));
    let mut zone = |key: &str, end: End| {
        let known = required_cover.zip(bore_diameter).zip(end.angle.map(Angle::si));
        let rule = known.filter(|(_, angle)| *angle >= FLATTEST);
        let rule = rule.map(|((cover, diameter), angle)| {
            (END_ZONE_FACTOR * cover + diameter.si() / 2.0) / angle.tan()
        });
        match known {
            Some((_, angle)) if rule.is_none() && angle > 0.0 => {
                ask.require(key, "because the line is flatter than 1 deg at this end");
            }
            // Where no line was built this is a fault of the line, not of the zone.
            Some(_) if rule.is_none() && line.built.is_some() => {
                ask.require(key, "because the line does not slope down from this end");
            }
            _ => {}
        }
        ask.number_or(key, rule)
    };
    let end_zone_entry = zone("end_zone_entry", line.entry);
    let end_zone_exit = zone("end_zone_exit", line.exit);
    if let (Some(entry), Some(exit), Some(run)) = (end_zone_entry, end_zone_exit, line.run) {
        check_zones(&mut ask, entry, exit, run.si());
    }
    let obstacles: Vec<_> = tree
        .all("site.obstacle")
        .map(|record| obstacle(cx, record, line.run, ground.as_ref()))
        .collect();
    let [free_water_level, groundwater_level] = water;
    let low_water_level = low_water(&mut cx.ask(record), free_water_level, groundwater_level);
    Some(Site {
        ground: ground?,
        free_water_level,
        low_water_level,
        groundwater_level,
        required_cover: Length::from_si(required_cover?),
        end_zone_entry: Length::from_si(end_zone_entry?),
        end_zone_exit: Length::from_si(end_zone_exit?),
        obstacles: obstacles.into_iter().collect::<Option<_>>()?,
    })
}

/// The lowest level of free water; it cannot stand above the highest one.
fn low_water(
    ask: &mut Ask<'_, '_, '_>,
    high: Option<Length>,
    groundwater: Option<Length>,
) -> Option<Length> {
    let Some(high) = high else {
        let hint = "give free_water_level, the highest level, too";
        ask.refuse("low_water_level", "no free water is given", hint);
        return None;
    };
    // Without the groundwater nothing says how low the water may fall.
    let usual = groundwater.map(|g| g.min(high).si());
    let low = Length::from_si(ask.number_or("low_water_level", usual)?);
    if low > high {
        let (found, most) = (shown(low.si(), unit::M), shown(high.si(), unit::M));
        let message =
            format!("low_water_level must be at most {most}, the highest, but was {found}");
        ask.error("order", "low_water_level", message)
            .found(found)
            .allowed(format!("at most {most}"))
            .hint("free_water_level is the highest level, low_water_level the lowest");
    }
    Some(low)
}

/// The size by which the table of cover counts: the nominal one, which a pipe is called by; the
/// outside diameter where own data have none.
fn size_for_cover(pipe: &Pipe) -> Length {
    match pipe.nominal() {
        // DN 100 is the size of 4 in, as every 25 of DN are an inch by name.
        Nominal::Dn(dn) => Length::inches(f64::from(*dn) / 25.0),
        Nominal::Inches(size) => Length::inches(f64::from(*size)),
        Nominal::Named(_) => pipe.outside_diameter(),
    }
}

/// The ground line must reach over the whole bore.
fn check_extent(ask: &mut Ask<'_, '_, '_>, ground: &GroundLine, run: Length) {
    /// Rounding of a run that follows from elements or a survey, m.
    const ROUNDING: f64 = 1e-6;
    let (from, to, run) = (ground.from().si(), ground.to().si(), run.si());
    let m = |v: f64| shown(v, unit::M);
    if from > ROUNDING {
        let message = format!(
            "the ground line begins at chainage {}, {} behind the entry point",
            m(from),
            m(from)
        );
        ask.error("ground_too_short", "ground", message)
            .found(format!("chainage {} to {}", m(from), m(to)))
            .allowed(format!("at least 0 to {}", m(run)))
            .hint("add a point [0, level] at the entry point, or one before it");
    }
    if to < run - ROUNDING {
        let message = format!(
            "the ground line ends at chainage {}, {} short of the exit point at {}",
            m(to),
            m(run - to),
            m(run)
        );
        ask.error("ground_too_short", "ground", message)
            .found(format!("chainage {} to {}", m(from), m(to)))
            .allowed(format!("at least 0 to {}", m(run)))
            .hint(format!(
                "add a point [{}, level], or one beyond the exit point",
                m(run).trim_end_matches(" m")
            ));
    }
}

fn check_zones(ask: &mut Ask<'_, '_, '_>, entry: f64, exit: f64, run: f64) {
    /// Share of the run beyond which the zones leave too little to check. Judgement.
    const MOST: f64 = 0.5;
    if entry + exit <= MOST * run {
        return;
    }
    let m = |v: f64| shown(v, unit::M);
    let key = if ask.has("end_zone_entry") { "end_zone_entry" } else { "end_zone_exit" };
    if entry + exit < run {
        let message = format!(
            "the end zones ({} and {}) take more than half the run of {}: cover is checked on {} only",
            m(entry),
            m(exit),
            m(run),
            m(run - entry - exit)
        );
        ask.warning("long_end_zones", key, message)
            .found(m(entry + exit))
            .allowed(format!("usually at most {} together", m(MOST * run)))
            .hint("give shorter end_zone_entry and end_zone_exit, or a smaller required_cover");
        return;
    }
    let message = format!(
        "the end zones ({} and {}) take the whole run of {}: cover is checked nowhere",
        m(entry),
        m(exit),
        m(run)
    );
    ask.warning("cover_nowhere", key, message)
        .hint("give shorter end_zone_entry and end_zone_exit, or a smaller required_cover");
}

fn obstacle(
    cx: &mut Context<'_>,
    record: &Record,
    run: Option<Length>,
    ground: Option<&GroundLine>,
) -> Option<Obstacle> {
    let mut ask = cx.ask(record);
    let name = ask.text("name").map(|name| name.value);
    let kind = ask
        .word("kind")
        .and_then(|word| ObstacleKind::ALL.into_iter().find(|k| k.word() == word.value));
    let [clearance, settlement_limit, heave_limit] =
        ["clearance", "settlement_limit", "heave_limit"]
            .map(|key| ask.number(key).map(|g| Length::from_si(g.value)));
    if kind == Some(ObstacleKind::Watercourse) {
        for key in ["settlement_limit", "heave_limit"] {
            ask.refuse(key, "the obstacle is a watercourse", "take it out: a bed bears movement");
        }
    }
    let shape = shape(&mut ask)?;
    let called = name.as_deref().map_or_else(
        || "the obstacle".to_owned(),
        |name| format!("obstacle \"{}\"", crate::diagnostic::brief(name)),
    );
    let (from, to) = shape.stretch();
    if let Some(run) = run
        && (to.si() < 0.0 || from > run)
    {
        let key = if matches!(shape, Shape::Round { .. }) { "at" } else { "from" };
        let m = |v: Length| shown(v.si(), unit::M);
        let message =
            format!("{called} lies at chainage {} to {}, outside the bore", m(from), m(to));
        ask.error("outside_line", key, message)
            .allowed(format!("0 to {}", m(run)))
            .hint("chainage is the horizontal distance along the line from the entry point");
        return None;
    }
    if let (Some(ground), Shape::Above { from, to, underside }) = (ground, shape) {
        plausible::underside(&mut ask, ground, &called, (from, to), underside);
    }
    Some(Obstacle { name: name?, kind: kind?, shape, clearance, settlement_limit, heave_limit })
}

fn shape(ask: &mut Ask<'_, '_, '_>) -> Option<Shape> {
    let (stretch, round) = (["from", "to", "underside"], ["at", "level", "diameter"]);
    let given_stretch = stretch.map(|key| ask.has(key)).contains(&true);
    let given_round = round.map(|key| ask.has(key)).contains(&true);
    let values = |ask: &mut Ask<'_, '_, '_>, keys: [&str; 3]| {
        keys.map(|key| ask.number(key).map(|g| Length::from_si(g.value)))
    };
    match (given_stretch, given_round) {
        (true, true) => {
            for key in round {
                let reason = "the obstacle is a stretch, because from, to or underside is given";
                ask.refuse(key, reason, "give from, to, underside, or at, level, diameter");
            }
            None
        }
        (false, false) => {
            let message = "from, to and underside are missing: where the obstacle lies";
            ask.error("missing", "from", message)
                .hint("give from, to and underside, or at, level and diameter");
            None
        }
        (true, false) => {
            stretch.iter().for_each(|key| ask.require(key, "for an obstacle over a stretch"));
            let [from, to, underside] = values(ask, stretch);
            let (from, to, underside) = (from?, to?, underside?);
            if from >= to {
                let m = |v: Length| shown(v.si(), unit::M);
                let message =
                    format!("to must be greater than from ({}), but was {}", m(from), m(to));
                ask.error("order", "to", message)
                    .found(m(to))
                    .allowed(format!("greater than {}", m(from)))
                    .hint("from is the end nearer to the entry point");
                return None;
            }
            Some(Shape::Above { from, to, underside })
        }
        (false, true) => {
            round.iter().for_each(|key| ask.require(key, "for a round obstacle"));
            let [at, level, diameter] = values(ask, round);
            Some(Shape::Round { at: at?, level: level?, diameter: diameter? })
        }
    }
}
