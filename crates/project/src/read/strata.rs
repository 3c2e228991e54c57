//! Borings and the ground between them.

use std::collections::BTreeSet;

use ground::{Boring, ConeReading, GroundLine, GroundModel, PenetrationTest, Stratum};
use quantity::{Length, Pressure, unit};

use super::bore_line::LineOfFile;
use super::soils::{self, SoilOfFile};
use super::strata_file;
use crate::context::{Ask, Context};
use crate::diagnostic::brief;
use crate::given::Given;
use crate::tree::{Record, Tree};
use crate::value::Reading;
use crate::wording::{nearest, shown};

/// How far before the entry and beyond the exit a boring may stand, m. Judgement: farther is a slip.
pub(super) const FAR_OUTSIDE: f64 = 100.0;
/// Difference between the level of a boring and the ground line that nobody asks about, m. Judgement: banks and
/// ditches beside the line make a few metres.
const LEVEL_OFF: f64 = 5.0;
/// Rounding of depths that became levels, m.
const ROUNDING: f64 = 1e-6;

type Soils = [(String, Option<SoilOfFile>)];

/// The ground; `None` where no boring was given, or where an error was noted.
pub(super) fn build(
    tree: &Tree,
    cx: &mut Context<'_>,
    ground: Option<&GroundLine>,
    line: &LineOfFile,
) -> Option<GroundModel> {
    let soils = soils::build(tree, cx);
    let errors = cx.report.errors();
    let mut names = BTreeSet::new();
    let records: Vec<&Record> = tree.all("ground.boring").collect();
    let mut borings = Vec::new();
    for record in &records {
        let mut ask = cx.ask(record);
        let boring = boring(&mut ask, &soils, ground, line);
        let Some(name) = ask.text("name") else { continue };
        if !names.insert(name.value.to_lowercase()) {
            let message = format!("there are two borings named \"{}\"", brief(&name.value));
            ask.error("name_twice", "name", message).hint("give every boring a name of its own");
        }
        borings.extend(boring);
    }
    // `names` goes on to the file, whose borings must not be named like those here.
    let entry = entry_point(&mut cx.ask(tree.one("line")?));
    let entry = entry.or_else(|| entry_in_grid(&mut cx.ask(tree.one("coordinates")?)));
    let record = tree.one("ground")?;
    let around = strata_file::Around { soils: &soils, ground, line, entry };
    borings.extend(strata_file::borings(&mut cx.ask(record), &around, &mut names));
    if cx.report.errors() > errors || soils.iter().any(|(_, soil)| soil.is_none()) {
        return None;
    }
    if borings.is_empty() {
        if !soils.is_empty() {
            let place = tree.all("ground.soil").next()?.place.clone();
            cx.report
                .warning("no_boring", &place, "soils are given, but no boring says where they lie")
                .hint("add [[ground.boring]] with strata, or name a file of borings in [ground]");
        }
        return None;
    }
    let soils = soils.into_iter().filter_map(|(_, soil)| soil).map(|s| s.soil).collect();
    match GroundModel::new(soils, borings) {
        Ok(model) => Some(model),
        Err(faults) => {
            let place = records.first().map_or_else(|| record.place.clone(), |r| r.place.clone());
            for fault in faults {
                cx.report
                    .error(fault.code(), &place, fault.to_string())
                    .hint("move one of the borings by a little, or correct its strata");
            }
            None
        }
    }
}

/// Easting and northing of the entry point, which belong together.
fn entry_point(ask: &mut Ask<'_, '_, '_>) -> Option<(f64, f64)> {
    const BOTH: [&str; 2] = ["entry_easting", "entry_northing"];
    if BOTH.map(|key| ask.has(key)).contains(&true) {
        BOTH.iter().for_each(|key| ask.require(key, "beside the other coordinate"));
    }
    let [east, north] = BOTH.map(|key| ask.number(key).map(|g| g.value));
    east.zip(north)
}

/// Easting and northing of the entry point as `[coordinates]` has them.
fn entry_in_grid(ask: &mut Ask<'_, '_, '_>) -> Option<(f64, f64)> {
    let [east, north] = ["easting", "northing"].map(|key| ask.number(key).map(|g| g.value));
    east.zip(north)
}

fn boring(
    ask: &mut Ask<'_, '_, '_>,
    soils: &Soils,
    ground: Option<&GroundLine>,
    line: &LineOfFile,
) -> Option<Boring> {
    let name = ask.text("name").map(|n| n.value);
    let chainage = ask.number("chainage").map(|g| Length::from_si(g.value));
    let offset = ask.number_or_default("offset");
    let usual = chainage.zip(ground).map(|(x, ground)| ground.level_extended(x).si());
    let level = ask.number_or("level", usual).map(Length::from_si);
    if let (Some(level), Some(usual)) = (level, usual) {
        check_level(ask, "level", name.as_deref().unwrap_or_default(), level, usual);
    }
    if let Some((x, run)) = chainage.zip(line.run) {
        let name = name.as_deref().unwrap_or_default();
        check_place(ask, "chainage", name, x, run);
    }
    let strata = strata(ask, soils, level);
    let water = ask.number("groundwater_level").map(|g| Length::from_si(g.value));
    if let (Some(water), Some(level)) = (water, level)
        && water > level
    {
        let (found, most) = (shown(water.si(), unit::M), shown(level.si(), unit::M));
        let message = format!("groundwater_level lies above the ground at the boring ({most})");
        ask.error("water_above_ground", "groundwater_level", message)
            .found(found)
            .allowed(format!("at most {most}"))
            .hint("for confined water give piezometric_level of the soil that holds it");
    }
    let at = |depth: f64| Some(Length::from_si(level?.si() - depth));
    let penetration = pairs(ask, "spt")
        .into_iter()
        .filter_map(|(depth, blows)| Some(PenetrationTest { level: at(depth)?, blows, n60: None }))
        .collect();
    let cone = pairs(ask, "cpt")
        .into_iter()
        .filter_map(|(depth, tip)| {
            Some(ConeReading { level: at(depth)?, resistance: Pressure::from_si(tip) })
        })
        .collect();
    let boring = Boring {
        name: name?,
        chainage: chainage?,
        offset: Length::from_si(offset?),
        level: level?,
        strata: strata?,
        groundwater_level: water,
        penetration,
        cone,
    };
    check_tests(ask, ["spt", "cpt"], &boring);
    Some(boring)
}

/// Warns of a boring that stands high above or deep below the ground line; `line` is its level there, m.
pub(super) fn check_level(
    ask: &mut Ask<'_, '_, '_>,
    key: &str,
    name: &str,
    level: Length,
    line: f64,
) {
    let m = |v: f64| shown(v, unit::M);
    let off = level.si() - line;
    if off.abs() <= LEVEL_OFF {
        return;
    }
    let side = if off > 0.0 { "above" } else { "below" };
    let message = format!(
        "the ground at boring {} lies at {}, {} {side} the ground line, which is at {} there",
        brief(name),
        m(level.si()),
        m(off.abs()),
        m(line)
    );
    ask.warning("level_off", key, message)
        .found(m(level.si()))
        .allowed(format!("usually within {} of {}", m(LEVEL_OFF), m(line)))
        .hint("do boring and ground line count from the same datum, and in the same unit?");
}

/// Warns of tests below the deepest stratum, of which the soil is not known; `keys` are those of blows and cone.
pub(super) fn check_tests(ask: &mut Ask<'_, '_, '_>, keys: [&str; 2], boring: &Boring) {
    let m = |v: f64| shown(v, unit::M);
    let depth = |level: Length| boring.level.si() - level.si();
    let end = depth(boring.end());
    let blows: Vec<f64> = boring.penetration.iter().map(|t| depth(t.level)).collect();
    let cone: Vec<f64> = boring.cone.iter().map(|r| depth(r.level)).collect();
    let [blows_key, cone_key] = keys;
    for (key, what, depths) in
        [(blows_key, "standard penetration tests", blows), (cone_key, "cone readings", cone)]
    {
        let below: Vec<f64> = depths.into_iter().filter(|d| *d > end + ROUNDING).collect();
        let Some(deepest) = below.iter().copied().reduce(f64::max) else { continue };
        let message = format!(
            "boring {}: {what} below its deepest stratum, which ends at a depth of {}: {}, down to {}",
            brief(&boring.name),
            m(end),
            below.len(),
            m(deepest)
        );
        ask.warning("below_strata", key, message)
            .found(m(deepest))
            .allowed(format!("at most {}", m(end)))
            .hint("give the strata down to the last test, or correct the depths");
    }
}

/// How far a boring stands before the entry or beyond the exit, m; not above zero where it stands between.
pub(super) fn outside(chainage: Length, run: Length) -> f64 {
    (-chainage.si()).max(chainage.si() - run.si())
}

/// A boring that stands beside the bore serves its end; one far away is a slip.
pub(super) fn check_place(
    ask: &mut Ask<'_, '_, '_>,
    key: &str,
    name: &str,
    chainage: Length,
    run: Length,
) {
    let m = |v: f64| shown(v, unit::M);
    let outside = outside(chainage, run);
    let (x, run) = (chainage.si(), run.si());
    if outside <= 0.0 {
        return;
    }
    let message = format!("boring {} stands {} outside the bore", brief(name), m(outside));
    let diagnostic = if outside > FAR_OUTSIDE {
        ask.error("outside_line", key, message)
    } else {
        ask.warning("outside_line", key, message)
    };
    diagnostic
        .found(m(x))
        .allowed(format!("0 to {}", m(run)))
        .hint("chainage is the horizontal distance along the line from the entry point; beside the bore its strata go on level");
}

fn strata(ask: &mut Ask<'_, '_, '_>, soils: &Soils, level: Option<Length>) -> Option<Vec<Stratum>> {
    let Some(Given { value: Reading::NamedRows(rows), .. }) = ask.reading("strata") else {
        return None;
    };
    let mut list = Vec::with_capacity(rows.len());
    let mut above: f64 = 0.0;
    for (i, (name, cells)) in rows.iter().enumerate() {
        let soil = soil_named(ask, soils, name);
        let [base] = cells.as_slice() else { continue };
        if base.value <= above {
            let (found, least) = (shown(base.value, unit::M), shown(above, unit::M));
            let message = format!(
                "the base of stratum {} must lie deeper than {least}, where it begins, but was {found}: the strata overlap",
                i + 1
            );
            ask.error_at("stratum_order", &base.place, message)
                .found(found)
                .allowed(format!("deeper than {least}"))
                .hint("write the strata from the top down, each with the depth of its base below the ground");
        }
        above = above.max(base.value);
        if let (Some(soil), Some(level)) = (soil, level) {
            list.push(Stratum { soil, base: Length::from_si(level.si() - base.value) });
        }
    }
    (list.len() == rows.len()).then_some(list)
}

fn soil_named(ask: &mut Ask<'_, '_, '_>, soils: &Soils, name: &Given<String>) -> Option<usize> {
    let known = soils.iter().position(|(soil, _)| soil.eq_ignore_ascii_case(&name.value));
    if known.is_none() {
        let words = soils.iter().map(|(soil, _)| soil.as_str());
        let hint = match nearest(&name.value, words.clone()) {
            Some(near) => format!("did you mean \"{near}\"?"),
            None if soils.is_empty() => "add a [[ground.soil]] with this name".to_owned(),
            None => format!("the soils are {}", words.collect::<Vec<_>>().join(", ")),
        };
        let message = format!("there is no soil \"{}\"", brief(&name.value));
        ask.error_at("unknown_soil", &name.place, message).found(brief(&name.value)).hint(hint);
    }
    known
}

fn pairs(ask: &mut Ask<'_, '_, '_>, key: &str) -> Vec<(f64, f64)> {
    match ask.reading(key).map(|g| g.value) {
        Some(Reading::Rows(rows)) => rows
            .iter()
            .filter_map(|row| match row.as_slice() {
                [depth, value] => Some((depth.value, value.value)),
                _ => None,
            })
            .collect(),
        _ => Vec::new(),
    }
}
