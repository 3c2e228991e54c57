//! The soils of the site.

use std::collections::BTreeMap;

use ground::{Soil, SoilGroup, SoilKind, Typical, typical};
use quantity::{Angle, Length, Pressure, UnitWeight, unit};
use working::{Evidence, Source};

use crate::context::{Ask, Context};
use crate::diagnostic::brief;
use crate::given::Given;
use crate::tree::{Record, Tree};
use crate::value::Reading;
use crate::wording::shown;

/// Ratio of stresses at rest in rock where none was given. Judgement.
const K0_ROCK: f64 = 0.5;

/// By how much typical unit weights above and below the water may be in the wrong order, N/m3: the table has submerged
/// weights, rounded. Judgement.
const TYPICAL_ROUNDING: f64 = 200.0;

/// A soil with the codes by which a file of borings calls it.
pub(super) struct SoilOfFile {
    pub(super) soil: Soil,
    pub(super) codes: Vec<String>,
}

/// All soils; `None` for one that cannot be used, so that the strata that name it are not faulted for it.
pub(super) fn build(tree: &Tree, cx: &mut Context<'_>) -> Vec<(String, Option<SoilOfFile>)> {
    let records: Vec<&Record> = tree.all("ground.soil").collect();
    let mut called = Called::default();
    let mut all: Vec<(String, Option<SoilOfFile>)> = Vec::with_capacity(records.len());
    for record in records {
        let mut ask = cx.ask(record);
        let name = ask.text("name").map(|n| n.value);
        if let Some(name) = &name
            && all.iter().any(|(known, _)| known.eq_ignore_ascii_case(name))
        {
            let message = format!("there are two soils named \"{}\"", brief(name));
            ask.error("name_twice", "name", message)
                .hint("give every soil a name of its own: strata are named by it");
        }
        let soil = soil(&mut ask, name.clone().unwrap_or_default());
        let codes = match ask.reading("codes").map(|g| g.value) {
            Some(Reading::Texts(list)) => list,
            _ => Vec::new(),
        };
        called.check(&mut ask, name.as_deref(), &codes);
        let codes = codes.into_iter().map(|g| g.value).collect();
        let soil = soil.map(|soil| SoilOfFile { soil, codes });
        all.push((name.unwrap_or_default(), soil));
    }
    all
}

/// What a file of borings may call the soils so far, each with the soil that it stands for.
#[derive(Default)]
struct Called {
    names: BTreeMap<String, String>,
    codes: BTreeMap<String, String>,
}

impl Called {
    /// Notes names and codes by which an earlier soil is called already: which one is meant would be a guess.
    fn check(&mut self, ask: &mut Ask<'_, '_, '_>, name: Option<&str>, codes: &[Given<String>]) {
        const HINT: &str = "leave each code with one soil, and let no code be the name of another";
        let plain = |text: &str| text.trim().to_lowercase();
        if let Some(name) = name
            && let Some(other) = self.codes.get(&plain(name))
        {
            let name = brief(name);
            let message = format!("the name \"{name}\" is a code of soil \"{}\"", brief(other));
            ask.error("code_twice", "name", message).found(name).hint(HINT);
        }
        for code in codes {
            let word = plain(&code.value);
            let (other, what) = match (self.names.get(&word), self.codes.get(&word)) {
                (Some(other), _) => (other, "the name"),
                (None, Some(other)) => (other, "a code"),
                (None, None) => continue,
            };
            let found = brief(&code.value);
            let message = format!("the code \"{found}\" is {what} of soil \"{}\"", brief(other));
            ask.error_at("code_twice", &code.place, message).found(found).hint(HINT);
        }
        let soil = name.unwrap_or_default();
        for code in codes {
            self.codes.entry(plain(&code.value)).or_insert_with(|| soil.to_owned());
        }
        if let Some(name) = name {
            self.names.entry(plain(name)).or_insert_with(|| soil.to_owned());
        }
    }
}

fn soil(ask: &mut Ask<'_, '_, '_>, name: String) -> Option<Soil> {
    let word = ask.word("kind").map(|w| w.value);
    let kind = word.and_then(|w| SoilKind::ALL.into_iter().find(|k| k.word() == w))?;
    let usual = typical(kind);
    if kind.group() == SoilGroup::Rock {
        for key in ["friction_angle", "cohesion", "undrained_strength", "shear_modulus"] {
            let hint = "its joints open by the least stress; give k0 and tensile_strength";
            ask.refuse(key, "the soil is rock", hint);
        }
        ["unit_weight", "saturated_unit_weight"].iter().for_each(|key| {
            ask.require(key, "for rock, of which nothing is typical");
        });
    } else if usual.is_none() {
        for key in
            ["unit_weight", "saturated_unit_weight", "friction_angle", "cohesion", "shear_modulus"]
        {
            ask.require(key, "for fill, of which nothing is typical");
        }
    }
    let source = usual.as_ref().map(source_of);
    let mut number = |key: &str, value: fn(&Typical) -> f64| {
        ask.number_or_from(key, usual.as_ref().map(value).zip(source.clone()))
    };
    let weight = number("unit_weight", |t| t.unit_weight.si());
    let saturated = number("saturated_unit_weight", |t| t.saturated_unit_weight.si());
    let rock = kind.group() == SoilGroup::Rock;
    let friction = if rock { None } else { number("friction_angle", |t| t.friction_angle.0.si()) };
    let cohesion = if rock { Some(0.0) } else { number("cohesion", |t| t.cohesion.si()) };
    let modulus = if rock { None } else { number("shear_modulus", |t| t.shear_modulus.0.si()) };
    let undrained = undrained(ask, usual.as_ref(), source.clone());
    if let Some((above, below)) = weight.zip(saturated) {
        check_weights(ask, above, below);
    }
    if let Some((modulus, strength)) = modulus.zip(undrained) {
        check_stiffness(ask, modulus, strength.si());
    }
    let k0 = if rock {
        let why = Source::new("rock without a measured stress", Evidence::Judgement);
        ask.number_or_from("k0", Some((K0_ROCK, why)))
    } else {
        ask.number_or("k0", friction.map(|phi| 1.0 - phi.sin()))
    };
    let tension = ask.number_or_default("tensile_strength");
    let head = ask.number("piezometric_level").map(|g| Length::from_si(g.value));
    if !rock && (friction.is_none() || modulus.is_none()) {
        return None;
    }
    Some(Soil {
        name,
        kind,
        unit_weight: UnitWeight::from_si(weight?),
        saturated_unit_weight: UnitWeight::from_si(saturated?),
        friction_angle: friction.map(Angle::from_si),
        cohesion: Pressure::from_si(cohesion?),
        undrained_strength: undrained,
        shear_modulus: modulus.map(Pressure::from_si),
        k0: k0?,
        tensile_strength: Pressure::from_si(tension?),
        piezometric_level: head,
    })
}

/// Warns of soil that weighs more moist than with all voids full.
fn check_weights(ask: &mut Ask<'_, '_, '_>, above: f64, below: f64) {
    let given = ["unit_weight", "saturated_unit_weight"].map(|key| ask.has(key));
    let rounding = if given == [true, true] { 0.0 } else { TYPICAL_ROUNDING };
    if above <= below + rounding || given == [false, false] {
        return;
    }
    let key = if ask.has("unit_weight") { "unit_weight" } else { "saturated_unit_weight" };
    let (above, below) = (shown(above, unit::KN_PER_M3), shown(below, unit::KN_PER_M3));
    let message = format!("unit_weight ({above}) is greater than saturated_unit_weight ({below})");
    let (found, allowed) = if key == "unit_weight" {
        (above, format!("usually at most {below}"))
    } else {
        (below, format!("usually at least {above}"))
    };
    ask.warning("unusual", key, message)
        .found(found)
        .allowed(allowed)
        .hint("water in the voids adds weight: were the two values swapped, or is one the dry weight of another soil?");
}

/// Notes a soil that fails before it yields: the pressure of a cavity in it has no solution.
fn check_stiffness(ask: &mut Ask<'_, '_, '_>, modulus: f64, strength: f64) {
    if modulus > strength {
        return;
    }
    let key = if ask.has("shear_modulus") { "shear_modulus" } else { "undrained_strength" };
    let (modulus, strength) = (shown(modulus, unit::KPA), shown(strength, unit::KPA));
    let message = format!(
        "shear_modulus ({modulus}) must be greater than undrained_strength ({strength}): \
         else a cavity in this soil has no solution"
    );
    let (found, allowed) = if key == "shear_modulus" {
        (modulus, format!("greater than {strength}"))
    } else {
        (strength, format!("less than {modulus}"))
    };
    ask.error("order", key, message)
        .found(found)
        .allowed(allowed)
        .hint("check the units: a bare shear_modulus is in MPa, a bare undrained_strength in kPa");
}

/// Undrained strength: given, none, or the typical one of a fine soil.
fn undrained(
    ask: &mut Ask<'_, '_, '_>,
    usual: Option<&Typical>,
    source: Option<Source>,
) -> Option<Pressure> {
    const KEY: &str = "undrained_strength";
    match ask.reading(KEY).map(|g| g.value) {
        Some(Reading::Number(value)) => return Some(Pressure::from_si(value)),
        Some(_) => return None,
        None if ask.has(KEY) => return None,
        None => {}
    }
    let (least, _) = usual?.undrained_strength?;
    ask.assume(KEY, least.to_string(), source?);
    Some(least)
}

fn source_of(typical: &Typical) -> Source {
    if typical.published {
        return Source::new(
            "lower end for its kind: a published table for preliminary design (Kany), reprinted in a text on tunnel engineering",
            Evidence::Published,
        );
    }
    let text = "lower end for its kind: put together from published tables and memory";
    Source::new(text, Evidence::FromMemory)
}
