use super::SoilKind;

/// How well a soil suits a drilled bore.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Suitability {
    /// Good to excellent.
    Good,
    /// Marginal: the fluid decides.
    Marginal,
    /// Questionable: the bore does not stay open, or steering finds no support.
    Questionable,
    /// Not acceptable without casing, grouting or another method.
    Unacceptable,
}

impl Suitability {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Suitability::Good => "good",
            Suitability::Marginal => "marginal",
            Suitability::Questionable => "questionable",
            Suitability::Unacceptable => "unacceptable",
        }
    }

    /// Class from 1 (good) to 4 (unacceptable).
    #[must_use]
    pub const fn class(self) -> f64 {
        match self {
            Suitability::Good => 1.0,
            Suitability::Marginal => 2.0,
            Suitability::Questionable => 3.0,
            Suitability::Unacceptable => 4.0,
        }
    }
}

/// How well a kind of soil suits a drilled bore, and what to watch in it.
///
/// # Source
/// Well-known rating of North American design guides by share of gravel, from memory; till with cobbles as challenging: a
/// secondary source that quotes an Australasian guide of 2009 (published). Mud, peat and fill are judgement.
#[must_use]
pub const fn suitability(kind: SoilKind) -> (Suitability, &'static str) {
    match kind {
        SoilKind::LooseSand | SoilKind::MediumSand | SoilKind::DenseSand => {
            (Suitability::Good, "needs a filter cake and gels that hold the sand")
        }
        SoilKind::SoftClay | SoilKind::StiffClay | SoilKind::VeryStiffClay => {
            (Suitability::Good, "watch swelling, balling and a plugged annulus")
        }
        SoilKind::Silt | SoilKind::SoftLoam | SoilKind::StiffLoam => {
            (Suitability::Good, "watch washing out of silt")
        }
        SoilKind::GravellySand => {
            (Suitability::Marginal, "30 to 50 % gravel: quality of the fluid decides")
        }
        SoilKind::Till => (Suitability::Marginal, "cobbles and boulders stop or deflect the tools"),
        SoilKind::Rock => (
            Suitability::Marginal,
            "strength, wear of tools and changes between soil and rock decide",
        ),
        SoilKind::SandyGravel => (
            Suitability::Questionable,
            "50 to 85 % gravel: the bore does not stay open, reaming is heavy",
        ),
        SoilKind::OrganicMud | SoilKind::MarineMud | SoilKind::Peat => {
            (Suitability::Questionable, "the bit sinks: little support for steering")
        }
        SoilKind::Fill => {
            (Suitability::Questionable, "debris and voids: needs a design of its own")
        }
        SoilKind::Gravel | SoilKind::CoarseGravel => (
            Suitability::Unacceptable,
            "more than 85 % gravel, or cobbles: neither bore nor pressure holds without casing or grouting",
        ),
    }
}
