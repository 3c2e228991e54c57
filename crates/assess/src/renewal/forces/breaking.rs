//! What opens the old main: breaking, splitting, spikes, and how far each spreads.

use project::{Feature, Renewal, Run, Stretch, Yields};
use pull::bursting::{self, Splitting};
use quantity::{Force, Length};

use super::{Band, PLANNING};
use crate::context::Missing;
use crate::renewal::context::Context;

/// Length of the cut that one blade keeps open, m.
// Judgement: the sample value of the formula.
pub(in crate::renewal) const CUT_LENGTH: Length = Length::from_si(0.1);

/// Friction of the cone, low, planning, high: it spreads as that of the string does.
// Judgement: nobody states a range for the cone. One is the most that a cone's formula takes.
pub(in crate::renewal) fn cone_frictions(r: &Renewal) -> [f64; 3] {
    let planning = r.factors.friction[PLANNING];
    let of = |friction: f64| if planning > 0.0 { friction / planning } else { 1.0 };
    r.factors.friction.map(|friction| (r.burst.cone_friction * of(friction)).min(1.0))
}

/// Whether the head meets something at a chainage that its blades must cut: what lies in a pit is taken out there.
pub(super) fn spiked(c: &Context<'_>, run: &Run, at: Length) -> bool {
    let same = |a: Length, b: Length| (a - b).abs().si() < 1e-9;
    let cut = |f: &&Feature| match (f.kind, f.action) {
        (_, Some("dig out" | "reroute")) => false,
        ("repair clamp" | "coupling", _) | (_, Some("cutter")) => true,
        _ => false,
    };
    let in_pit = same(at, run.launch) || same(at, run.machine);
    !in_pit && c.renewal.host.features.iter().filter(cut).any(|f| same(f.at, at))
}

/// Force where something is cut over that in plain pipe: low, planning, high.
// Judgement: the source gives the ends of the range for split pipe, and takes the spikes for rare; planning takes the
// lower end, and pipe that breaks the same factors.
pub(in crate::renewal) fn spike_factors() -> [f64; 3] {
    let factors = &bursting::COUPLING_FACTORS;
    [1.0, factors.low_si(), factors.high_si().unwrap_or(factors.low_si())]
}

/// Ends of the splitting force over its planning value, for given metal.
// Judgement: the formula was fitted to plates and is good to the order of magnitude only.
pub(in crate::renewal) const SPLITTING_SPREAD: (f64, f64) = (0.5, 2.0);

/// Whether the expander is larger than the bore: only then does it touch the old main.
pub(in crate::renewal) fn touches(c: &Context<'_>, stretch: &Stretch) -> Result<bool, Missing> {
    Ok(c.expander()? > stretch.inside_diameter)
}

/// Breaking or splitting a stretch: low, planning, high.
///
/// The ends of the strength and those of the model (length in contact, or [`SPLITTING_SPREAD`]) and of a spike are
/// combined as `exp √(Σ ln² rᵢ)` of their ratios rᵢ to planning.
// Judgement: the ratios have nothing to do with one another; all of them at one end would be a band that nobody uses.
pub(in crate::renewal) fn breaking(
    c: &Context<'_>,
    stretch: &Stretch,
    spike: bool,
) -> Result<Band, Missing> {
    let burst = &c.renewal.burst;
    if stretch.material.yields() == Yields::Not {
        let because = format!("{} cannot be burst: see host.material", stretch.material.word());
        return Err(Missing { keys: Vec::new(), because });
    }
    if !touches(c, stretch)? {
        return Ok([Force::ZERO; 3]);
    }
    let [low, strength, high] = stretch.strength;
    let split = stretch.material.yields() == Yields::Split;
    let plain = if split {
        bursting::splitting_force(&Splitting {
            wall: stretch.wall,
            flow_stress: strength,
            cut_length: CUT_LENGTH,
            friction: burst.cone_friction,
            tear: bursting::SPLITTING_TEAR,
            cutters: f64::from(burst.cutters),
        })?
    } else {
        bursting::breaking_force(
            stretch.wall,
            strength,
            bursting::CONTACT_LENGTH,
            burst.cone_half_angle,
            burst.cone_friction,
        )?
    };
    let (least, most) = if split {
        SPLITTING_SPREAD
    } else {
        let lengths = &bursting::CONTACT_LENGTHS;
        let usual = bursting::CONTACT_LENGTH.si();
        (lengths.low_si() / usual, lengths.high_si().unwrap_or(usual) / usual)
    };
    let [_, planned, worst] = if spike { spike_factors() } else { [1.0; 3] };
    let together =
        |ratios: [f64; 3]| ratios.map(|r| r.ln().powi(2)).iter().sum::<f64>().sqrt().exp();
    let planning = plain * planned;
    Ok([
        plain / together([low / strength, least, 1.0]),
        planning,
        planning * together([high / strength, most, worst / planned]),
    ])
}
