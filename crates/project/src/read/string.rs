//! The string: pipe, joint, contents, assembly.

use pipe::{Contents, Joint, Standard, Valued, joint_defaults};
use quantity::{Angle, Force, Length, Pressure, unit};
use working::{Evidence, Source};

use super::{pipe_data, plausible};
use crate::context::{Ask, Context};
use crate::fields::Technique;
use crate::model::{Assembly, StringDesign};
use crate::tree::Tree;
use crate::value::Reading;
use crate::wording::shown;

/// What the file says of the string; single values also where no string can be made of them.
#[derive(Debug, Default)]
pub(super) struct StringOfFile {
    pub(super) built: Option<StringDesign>,
    laying_length: Option<Length>,
    extra_length: Option<Length>,
    assembly: Option<Assembly>,
}

pub(super) fn build(tree: &Tree, cx: &mut Context<'_>) -> StringOfFile {
    let Some(record) = tree.one("string") else { return StringOfFile::default() };
    let technique = cx.technique;
    let mut ask = cx.ask(record);
    let pipe = pipe_data::build(&mut ask);
    let drilled = technique == Technique::Drilling;
    // A string that is pulled behind a head lies empty and level: nothing asks what carries it outside a bore.
    let contents = if drilled { contents(&mut ask) } else { Some(Contents::Empty) };
    let assembly = assembly(&mut ask);
    let support_friction = if !drilled {
        Some(0.0)
    } else {
        match ask.word_or_default("support") {
            Some(word) => {
                let usual = if word == "rollers" { 0.1 } else { 0.5 };
                ask.number_or("support_friction", Some(usual))
            }
            None => None,
        }
    };
    let ramp_slope = if drilled { ask.number_or_default("ramp_slope") } else { Some(0.0) };
    let laying_length = match &pipe {
        Some(p) => Some(p.pipe.laying_length().si()),
        None => ask.number("laying_length").map(|g| g.value),
    };
    let extra_length =
        if drilled { ask.number_or("extra_length", laying_length) } else { laying_length };
    let head_link = if drilled { ask.number_or_default("head_link") } else { Some(0.0) };
    let joint = match (&pipe, tree.one("string.joint")) {
        (Some(p), Some(record)) => Some(joint(&mut cx.ask(record), drilled, p.standard, p.size)),
        _ => None,
    };
    let (laying, extra) = (laying_length.map(Length::from_si), extra_length.map(Length::from_si));
    let kept = assembly.clone();
    let design = || {
        Some(StringDesign {
            pipe: pipe?.pipe,
            joint: joint?,
            contents: contents?,
            assembly: assembly?,
            support_friction: support_friction?,
            ramp_slope: Angle::from_si(ramp_slope?),
            extra_length: extra?,
            head_link: Length::from_si(head_link?),
        })
    };
    StringOfFile { built: design(), laying_length: laying, extra_length: extra, assembly: kept }
}

fn contents(ask: &mut Ask<'_, '_, '_>) -> Option<Contents> {
    let word = ask.word_or_default("contents")?;
    if word != "part" {
        let hint = "write contents = \"part\", or take ballast_share out";
        ask.refuse("ballast_share", &format!("contents is \"{word}\""), hint);
        return Some(if word == "water" { Contents::Water } else { Contents::Empty });
    }
    ask.require("ballast_share", "with contents = \"part\"");
    ask.number("ballast_share").map(|share| Contents::Part(share.value))
}

fn assembly(ask: &mut Ask<'_, '_, '_>) -> Option<Assembly> {
    let word = ask.word_or_default("assembly")?;
    if word != "sub-strings" {
        let hint = "write assembly = \"sub-strings\", or take sub_strings out";
        ask.refuse("sub_strings", &format!("assembly is \"{word}\""), hint);
        let all = word == "string";
        return Some(if all { Assembly::String } else { Assembly::PipeByPipe });
    }
    ask.require("sub_strings", "with assembly = \"sub-strings\"");
    match ask.reading("sub_strings")?.value {
        Reading::Integers(counts) => {
            Some(Assembly::SubStrings(counts.into_iter().map(|c| c.value).collect()))
        }
        _ => None,
    }
}

fn joint(ask: &mut Ask<'_, '_, '_>, drilled: bool, standard: Standard, size: u32) -> Joint {
    let usual = joint_defaults(standard, size).unwrap_or_default();
    let source = ask
        .text("source")
        .map_or_else(Source::given, |text| Source::owned(text.value, Evidence::Given));
    let mut one = |key: &str, usual: Option<(f64, Source)>| {
        let given = ask.has(key);
        let assumed = usual.as_ref().map(|(_, source)| source.clone());
        let value = ask.number_or_from(key, usual)?;
        Some((value, if given { source.clone() } else { assumed? }))
    };
    fn split<T: Copy>(v: Option<Valued<T>>, si: impl Fn(T) -> f64) -> Option<(f64, Source)> {
        v.map(|v| (si(v.value), v.source))
    }
    let published = usual.permitted_pull.as_ref().map(|p| p.value);
    let usual_pfa = usual.pfa.as_ref().map(|p| p.value);
    let angle = one("allowable_angle", split(usual.allowable_angle, Angle::si));
    let pull = one("permitted_pull", split(usual.permitted_pull, Force::si));
    let pfa = one("pressure", split(usual.pfa, Pressure::si));
    if let Some(published) = published {
        plausible::joint_pull(ask, published);
    }
    plausible::joint_pressure(ask, usual_pfa);
    let given = drilled && ask.has("external_pressure");
    let proof =
        drilled.then(|| ask.number_or_default("external_pressure")).flatten().map(|value| {
            let value = Pressure::from_si(value);
            if given {
                Valued::new(value, source.clone())
            } else {
                Valued::new(value, pipe::seal_external_proof().source)
            }
        });
    let mixed =
        [&angle, &pull, &pfa].map(|v| v.as_ref().map(|(_, s)| s.evidence == Evidence::Given));
    if mixed.contains(&Some(true)) && mixed.contains(&Some(false)) {
        let message = "some values of the joint are given and others come from a published set";
        ask.warning("mixed_joint", "", message.to_owned())
            .hint("take allowable_angle, permitted_pull and pressure from one certificate");
    }
    Joint {
        allowable_angle: angle.map(|(v, s)| Valued::new(Angle::from_si(v), s)),
        permitted_pull: pull.map(|(v, s)| Valued::new(Force::from_si(v), s)),
        pfa: pfa.map(|(v, s)| Valued::new(Pressure::from_si(v), s)),
        seal_external_proof: proof,
    }
}

/// Pipes that a bore takes: bore length and what sticks out, in whole pipes.
#[must_use]
fn pipes_needed(bore_length: Length, extra: Length, laying_length: Length) -> u64 {
    let pipes = ((bore_length + extra) / laying_length - 1e-9).ceil();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "lengths are positive and their ranges keep the quotient far below 2^53"
    )]
    let whole = pipes.max(0.0) as u64;
    whole
}

/// Pipes up to which every head position of the string is computed in about a second: 9 km of 6 m pipes.
const MOST_PIPES: u64 = 1500;

/// Holds the pipes that the bore takes against what can be computed and against the sub-strings; `length` is its least and greatest
/// length, which differ where the line could not be built.
pub(super) fn check_pipes(
    ask: &mut Ask<'_, '_, '_>,
    string: &StringOfFile,
    (least, greatest): (Length, Length),
) {
    let (Some(laying), Some(extra)) = (string.laying_length, string.extra_length) else { return };
    let fewest = pipes_needed(least, extra, laying);
    let most = pipes_needed(greatest, extra, laying);
    if fewest > MOST_PIPES {
        let message = format!("the bore takes {fewest} pipes, more than can be computed");
        ask.error("too_many_pipes", "laying_length", message)
            .found(fewest.to_string())
            .allowed(format!("at most {MOST_PIPES} pipes"))
            .hint("check run and laying_length, and the units of both");
        return;
    }
    let Some(Assembly::SubStrings(counts)) = &string.assembly else { return };
    let sum: u64 = counts.iter().map(|c| u64::from(*c)).sum();
    if (fewest..=most).contains(&sum) {
        return;
    }
    let m = |l: Length| shown(l.si(), unit::M);
    let (needed, bore) = if fewest == most {
        (fewest.to_string(), m(least))
    } else {
        (format!("{fewest} to {most}"), format!("{} to {}", m(least), m(greatest)))
    };
    let (extra, length) = (m(extra), m(laying));
    let message = format!("sub_strings must add up to {needed} pipes, but add up to {sum}");
    ask.error("sub_strings_do_not_fit", "sub_strings", message)
        .found(sum.to_string())
        .allowed(format!("a sum of {needed}"))
        .hint(format!(
            "the bore is {bore} long and {extra} stay outside: {needed} pipes of {length}"
        ));
}
