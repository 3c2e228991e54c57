//! Borings that stand in a file of their own.

use std::collections::BTreeSet;

use exchange::{BoringData, DataIssue, Severity, read_ground};
use ground::{Boring, ConeReading, GroundLine, PenetrationTest, Stratum};
use quantity::{Length, Pressure};

use super::bore_line::LineOfFile;
use super::soils::SoilOfFile;
use crate::context::Ask;
use crate::diagnostic::brief;
use crate::wording::nearest;

type Soils = [(String, Option<SoilOfFile>)];

/// Borings of the file that the section names; none where it names none. What is wrong is noted at the name of the file.
pub(super) fn borings(
    ask: &mut Ask<'_, '_, '_>,
    soils: &Soils,
    ground: Option<&GroundLine>,
    line: &LineOfFile,
    entry: Option<(f64, f64)>,
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
    data.warnings.iter().for_each(|issue| note(ask, name, issue));
    unknown_codes(ask, name, &data.borings, soils);
    let mut place = Placing { ask, name, line, entry, told: false };
    data.borings.iter().filter_map(|b| boring(&mut place, b, soils, ground)).collect()
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

/// The soil that a code of the file stands for.
fn soil_of(soils: &Soils, code: &str) -> Option<usize> {
    let same = |text: &str| text.eq_ignore_ascii_case(code.trim());
    soils.iter().position(|(name, soil)| {
        same(name) || soil.as_ref().is_some_and(|s| s.codes.iter().any(|c| same(c)))
    })
}

fn unknown_codes(ask: &mut Ask<'_, '_, '_>, name: &str, borings: &[BoringData], soils: &Soils) {
    let strata = borings.iter().flat_map(|b| &b.strata);
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
    /// Chainage and offset.
    fn of(&mut self, data: &BoringData) -> Option<(Length, Length)> {
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
                    "give entry_easting and entry_northing in [line], in the grid of the file",
                );
            }
            return None;
        };
        let (line, _) = self.line.built.as_ref()?;
        Some(line.beside(Length::from_si(east - east_0), Length::from_si(north - north_0)))
    }
}

fn boring(
    placing: &mut Placing<'_, '_, '_, '_>,
    data: &BoringData,
    soils: &Soils,
    ground: Option<&GroundLine>,
) -> Option<Boring> {
    let (chainage, offset) = placing.of(data)?;
    if let Some(run) = placing.line.run {
        super::strata::check_place(placing.ask, "file", &data.id, chainage, run);
    }
    let level = data
        .ground_level
        .map(Length::from_si)
        .or_else(|| ground.map(|g| g.level_extended(chainage)))?;
    let at = |depth: f64| Length::from_si(level.si() - depth);
    let strata = data
        .strata
        .iter()
        .map(|s| Some(Stratum { soil: soil_of(soils, &s.code)?, base: at(s.base) }))
        .collect::<Option<Vec<_>>>()?;
    let penetration = data
        .spt
        .iter()
        .filter_map(|t| Some(PenetrationTest { level: at(t.depth), blows: t.blows?, n60: t.n60 }))
        .collect();
    let cone = data
        .cpt
        .iter()
        .map(|r| ConeReading {
            level: at(r.depth),
            resistance: Pressure::from_si(r.cone_resistance),
        })
        .collect();
    Some(Boring {
        name: data.id.clone(),
        chainage,
        offset,
        level,
        strata,
        groundwater_level: data.water_depth.map(at),
        penetration,
        cone,
    })
}
