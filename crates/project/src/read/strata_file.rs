//! Borings that stand in a file of their own.

use std::collections::BTreeSet;

use exchange::{BoringData, DataIssue, Severity, SptData, read_ground};
use ground::{Boring, ConeReading, GroundLine, PenetrationTest, Stratum};
use quantity::{Length, Pressure, unit};

use super::bore_line::LineOfFile;
use super::soils::SoilOfFile;
use super::strata::{FAR_OUTSIDE, check_level, check_place, check_tests, outside};
use crate::context::Ask;
use crate::diagnostic::brief;
use crate::wording::{nearest, shown};

/// Share of the theoretical energy for which N60 is the count. Common practice: its definition.
const ENERGY_OF_N60: f64 = 0.60;

type Soils = [(String, Option<SoilOfFile>)];

/// Distance from the line beyond which a boring says little of the ground at the bore, m. Judgement.
const FAR_BESIDE: f64 = 50.0;
/// Distance beyond which the coordinates are of another grid, m. Judgement: the range of offset in the crossing file.
const OTHER_GRID: f64 = 500.0;
/// Most names that one message lists. Judgement.
const MOST_NAMES: usize = 20;

/// What borings of a file are held against.
pub(super) struct Around<'a> {
    pub(super) soils: &'a Soils,
    pub(super) ground: Option<&'a GroundLine>,
    pub(super) line: &'a LineOfFile,
    /// Easting and northing of the entry point.
    pub(super) entry: Option<(f64, f64)>,
}

/// Borings of the file that the section names; none where it names none. What is wrong is noted at the name of the file.
/// `names` are those of the borings so far, in lower case.
pub(super) fn borings(
    ask: &mut Ask<'_, '_, '_>,
    around: &Around<'_>,
    names: &mut BTreeSet<String>,
) -> Vec<Boring> {
    let Some(file) = ask.text("file") else { return Vec::new() };
    let name = file.value.as_str();
    let bytes = match ask.load(name) {
        Ok(bytes) => bytes,
        Err(why) => {
            let message = format!("the file of borings \"{}\" cannot be read: {why}", brief(name));
            ask.error("file_not_readable", "file", message)
                .hint("write its name as it is seen from the folder of the crossing file");
            return Vec::new();
        }
    };
    let data = match read_ground(name, &bytes) {
        Ok(data) => data,
        Err(issues) => {
            issues.iter().for_each(|issue| note(ask, name, issue));
            return Vec::new();
        }
    };
    // Of a boring without level it is said below what is taken instead.
    let warnings = data.warnings.iter().filter(|issue| issue.code != "no_level");
    warnings.for_each(|issue| note(ask, name, issue));
    let used = used(ask, name, around, &data.borings);
    for (data, _) in &used {
        if !names.insert(data.id.to_lowercase()) {
            let id = brief(&data.id);
            let (file, line) = (brief(name), data.line);
            let message = format!("{file}, line {line}: there is another boring named \"{id}\"");
            ask.error("name_twice", "file", message)
                .found(id)
                .hint("take one of the two out, or give it a name of its own");
        }
    }
    unknown_codes(ask, name, &used, around.soils);
    let borings =
        used.iter().filter_map(|(data, at)| boring(ask, name, around, data, (*at)?)).collect();
    left_out_tests(ask, name, &used);
    borings
}

/// Chainage and offset.
type At = (Length, Length);

/// The borings that say something of the ground at the bore, with their places where they are known; of the others a
/// warning tells, for an investigation covers more than one crossing.
fn used<'d>(
    ask: &mut Ask<'_, '_, '_>,
    name: &str,
    around: &Around<'_>,
    borings: &'d [BoringData],
) -> Vec<(&'d BoringData, Option<At>)> {
    let (bare, with): (Vec<_>, Vec<_>) = borings.iter().partition(|b| b.strata.is_empty());
    let mut place =
        Placing { ask: &mut *ask, name, line: around.line, entry: around.entry, told: false };
    let placed: Vec<_> = with.into_iter().map(|data| (data, place.of(data))).collect();
    let (far, used): (Vec<_>, Vec<_>) = placed.into_iter().partition(|(_, at)| {
        at.zip(around.line.run).is_some_and(|((x, _), run)| outside(x, run) > FAR_OUTSIDE)
    });
    let file = brief(name);
    if !bare.is_empty() {
        let message = format!("{file}: borings without strata are left out: {}", listed(&bare));
        ask.warning("left_out", "file", message)
            .hint("give them strata where they stand at the crossing");
    }
    let far: Vec<_> = far.into_iter().map(|(data, _)| data).collect();
    if far.is_empty() {
        return used;
    }
    let limit = shown(FAR_OUTSIDE, unit::M);
    if used.is_empty() {
        let message = format!(
            "{file}: all borings with strata stand more than {limit} outside the bore: {}",
            listed(&far)
        );
        ask.error("outside_line", "file", message).hint(
            "are the coordinates of the entry point and those of the file of one grid, and is the azimuth right?",
        );
    } else {
        let message = format!(
            "{file}: borings more than {limit} before the entry or beyond the exit are left out: {}",
            listed(&far)
        );
        ask.warning("left_out", "file", message)
            .hint("nothing is to be done where they belong to other works");
    }
    used
}

/// Names of borings, of many the first.
fn listed(borings: &[&BoringData]) -> String {
    let names: Vec<_> = borings.iter().take(MOST_NAMES).map(|b| brief(&b.id).to_string()).collect();
    let names = names.join(", ");
    match borings.len().saturating_sub(MOST_NAMES) {
        0 => names,
        more => format!("{names} and {more} more"),
    }
}

/// Warns of penetration tests that are not used.
fn left_out_tests(ask: &mut Ask<'_, '_, '_>, name: &str, used: &[(&BoringData, Option<At>)]) {
    let tests = || used.iter().flat_map(|(data, _)| &data.spt);
    let refused = tests().filter(|t| t.refusal).count();
    let silent = tests().filter(|t| !t.refusal && t.blows.is_none()).count();
    for (count, code, why) in [
        (refused, "spt_refused", "was refused by the ground"),
        (silent, "spt_without_blows", "has no count of blows"),
    ] {
        if count > 0 {
            let message = format!(
                "{}: standard penetration tests are left out where the test {why}: {count}",
                brief(name)
            );
            ask.warning(code, "file", message)
                .found(count.to_string())
                .hint("correlations need blows for the full 300 mm");
        }
    }
}

/// A message on the file of borings, at the place in the crossing file that names it.
fn note(ask: &mut Ask<'_, '_, '_>, name: &str, issue: &DataIssue) {
    let place = match issue.line {
        0 => brief(name).to_string(),
        line => format!("{}, line {line}", brief(name)),
    };
    let message = format!("{place}: {}", issue.message);
    let diagnostic = match issue.severity {
        Severity::Error => ask.error(issue.code, "file", message),
        Severity::Warning => ask.warning(issue.code, "file", message),
    };
    if let Some(found) = &issue.found {
        diagnostic.found(found.clone());
    }
    if let Some(allowed) = &issue.allowed {
        diagnostic.allowed(allowed.clone());
    }
    if let Some(hint) = &issue.hint {
        diagnostic.hint(hint.clone());
    }
}

/// Blows at [`ENERGY_OF_N60`]: those that the file gives, else the counted ones by the energy that reached the rods.
fn n60(test: &SptData, blows: f64) -> Option<f64> {
    test.n60.or_else(|| Some(blows * test.energy_ratio? / ENERGY_OF_N60))
}

/// The soil that a code of the file stands for.
fn soil_of(soils: &Soils, code: &str) -> Option<usize> {
    let same = |text: &str| text.eq_ignore_ascii_case(code.trim());
    soils.iter().position(|(name, soil)| {
        same(name) || soil.as_ref().is_some_and(|s| s.codes.iter().any(|c| same(c)))
    })
}

fn unknown_codes(
    ask: &mut Ask<'_, '_, '_>,
    name: &str,
    borings: &[(&BoringData, Option<At>)],
    soils: &Soils,
) {
    let strata = borings.iter().flat_map(|(b, _)| &b.strata);
    let codes: BTreeSet<&str> = strata.map(|s| s.code.trim()).collect();
    let known: Vec<&str> = soils
        .iter()
        .flat_map(|(name, soil)| {
            let codes = soil.iter().flat_map(|s| s.codes.iter().map(String::as_str));
            [name.as_str()].into_iter().chain(codes)
        })
        .collect();
    for code in codes {
        if soil_of(soils, code).is_some() {
            continue;
        }
        let message = format!("{}: no soil has the code \"{}\"", brief(name), brief(code));
        let hint = match nearest(code, known.iter().copied()) {
            Some(near) => format!(
                "did you mean the soil with \"{near}\"? Else add the code to codes of a [[ground.soil]]"
            ),
            None => "add the code to codes of the [[ground.soil]] that it stands for".to_owned(),
        };
        ask.error("unknown_soil", "file", message).found(brief(code)).hint(hint);
    }
}

/// What it takes to place a boring.
struct Placing<'p, 'c, 'r, 'a> {
    ask: &'p mut Ask<'c, 'r, 'a>,
    name: &'p str,
    line: &'p LineOfFile,
    /// Easting and northing of the entry point.
    entry: Option<(f64, f64)>,
    /// Whether it was said that coordinates of the entry point are missing.
    told: bool,
}

impl Placing<'_, '_, '_, '_> {
    fn of(&mut self, data: &BoringData) -> Option<At> {
        if let Some(chainage) = data.chainage {
            let offset = data.offset.unwrap_or(0.0);
            return Some((Length::from_si(chainage), Length::from_si(offset)));
        }
        let (Some(east), Some(north)) = (data.easting, data.northing) else {
            let message = format!(
                "{}, line {}: boring {} has neither chainage nor coordinates",
                brief(self.name),
                data.line,
                brief(&data.id)
            );
            self.ask
                .error("no_place", "file", message)
                .hint("give its chainage along the line, or its easting and northing");
            return None;
        };
        let Some((east_0, north_0)) = self.entry else {
            if !std::mem::replace(&mut self.told, true) {
                let message = format!(
                    "{} gives its borings by coordinates, but those of the entry point are not known",
                    brief(self.name)
                );
                self.ask.error("no_place", "file", message).hint(
                    "give [coordinates] of the entry point, or entry_easting and entry_northing in [line], in the grid of the file",
                );
            }
            return None;
        };
        let (line, _) = self.line.built.as_ref()?;
        Some(line.beside(Length::from_si(east - east_0), Length::from_si(north - north_0)))
    }
}

/// Warns of a boring far beside the line; one farther than any investigation reaches stands in another grid.
fn check_offset(ask: &mut Ask<'_, '_, '_>, name: &str, data: &BoringData, offset: Length) {
    let m = |v: f64| shown(v, unit::M);
    let beside = offset.si().abs();
    if beside <= FAR_BESIDE {
        return;
    }
    let (file, line, id) = (brief(name), data.line, brief(&data.id));
    let message = format!("{file}, line {line}: boring {id} stands {} beside the line", m(beside));
    if beside > OTHER_GRID {
        ask.error("beside_line", "file", message).found(m(beside)).allowed(format!("at most {}", m(OTHER_GRID))).hint(
            "are the coordinates of the entry point and those of the file of one grid, and is the azimuth right? \
             Else take the boring out of the file",
        );
    } else {
        ask.warning("beside_line", "file", message)
            .found(m(beside))
            .allowed(format!("usually within {}", m(FAR_BESIDE)))
            .hint("the ground at the bore may differ: take the boring out of the file, or sink one nearer to the line");
    }
}

fn boring(
    ask: &mut Ask<'_, '_, '_>,
    name: &str,
    around: &Around<'_>,
    data: &BoringData,
    (chainage, offset): At,
) -> Option<Boring> {
    if let Some(run) = around.line.run {
        check_place(ask, "file", &data.id, chainage, run);
    }
    check_offset(ask, name, data, offset);
    let soils = around.soils;
    let usual = around.ground.map(|g| g.level_extended(chainage));
    let level = match (data.ground_level.map(Length::from_si), usual) {
        (Some(level), Some(usual)) => {
            check_level(ask, "file", &data.id, level, usual.si());
            level
        }
        (Some(level), None) => level,
        (None, usual) => {
            let level = usual?;
            let (file, line, id) = (brief(name), data.line, brief(&data.id));
            let taken = shown(level.si(), unit::M);
            let message = format!(
                "{file}, line {line}: boring {id} has no level: that of the ground line at its chainage was taken, {taken}"
            );
            ask.warning("no_level", "file", message)
                .hint("give the level of the ground at the boring in the file");
            level
        }
    };
    let at = |depth: f64| Length::from_si(level.si() - depth);
    let strata = data
        .strata
        .iter()
        .map(|s| Some(Stratum { soil: soil_of(soils, &s.code)?, base: at(s.base) }))
        .collect::<Option<Vec<_>>>()?;
    let penetration = data
        .spt
        .iter()
        .filter(|t| !t.refusal)
        .filter_map(|t| {
            let blows = t.blows?;
            Some(PenetrationTest { level: at(t.depth), blows, n60: n60(t, blows) })
        })
        .collect();
    let cone = data
        .cpt
        .iter()
        .map(|r| ConeReading {
            level: at(r.depth),
            resistance: Pressure::from_si(r.cone_resistance),
        })
        .collect();
    let boring = Boring {
        name: data.id.clone(),
        chainage,
        offset,
        level,
        strata,
        groundwater_level: data.water_depth.map(at),
        penetration,
        cone,
    };
    check_tests(ask, ["file", "file"], &boring);
    Some(boring)
}
