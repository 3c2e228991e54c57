/// What a soil is; decides the typical values that stand in for missing ones, and which rules apply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SoilKind {
    /// Loose sand.
    LooseSand,
    /// Medium dense sand.
    MediumSand,
    /// Dense sand.
    DenseSand,
    /// Sand with gravel of 30 to 50 % by weight.
    GravellySand,
    /// Gravel of 50 to 85 % by weight with sand.
    SandyGravel,
    /// Gravel without sand.
    Gravel,
    /// Coarse gravel and cobbles.
    CoarseGravel,
    /// Silt.
    Silt,
    /// Soft clay.
    SoftClay,
    /// Stiff clay.
    StiffClay,
    /// Very stiff clay.
    VeryStiffClay,
    /// Soft loam.
    SoftLoam,
    /// Stiff loam.
    StiffLoam,
    /// Glacial till.
    Till,
    /// Soft organic mud.
    OrganicMud,
    /// Marine mud.
    MarineMud,
    /// Peat.
    Peat,
    /// Filled ground.
    Fill,
    /// Rock.
    Rock,
}

/// Families of soils that behave alike around a bore.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SoilGroup {
    /// Sand and gravel: drains while it is loaded.
    Granular,
    /// Silt, clay, loam, till, mud and peat: holds its water while it is loaded.
    Fine,
    /// Rock.
    Rock,
}

impl SoilKind {
    /// All kinds, in the order of lists.
    pub const ALL: [SoilKind; 19] = [
        SoilKind::LooseSand,
        SoilKind::MediumSand,
        SoilKind::DenseSand,
        SoilKind::GravellySand,
        SoilKind::SandyGravel,
        SoilKind::Gravel,
        SoilKind::CoarseGravel,
        SoilKind::Silt,
        SoilKind::SoftClay,
        SoilKind::StiffClay,
        SoilKind::VeryStiffClay,
        SoilKind::SoftLoam,
        SoilKind::StiffLoam,
        SoilKind::Till,
        SoilKind::OrganicMud,
        SoilKind::MarineMud,
        SoilKind::Peat,
        SoilKind::Fill,
        SoilKind::Rock,
    ];

    /// The words for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            SoilKind::LooseSand => "loose sand",
            SoilKind::MediumSand => "medium dense sand",
            SoilKind::DenseSand => "dense sand",
            SoilKind::GravellySand => "gravelly sand",
            SoilKind::SandyGravel => "sandy gravel",
            SoilKind::Gravel => "gravel",
            SoilKind::CoarseGravel => "coarse gravel",
            SoilKind::Silt => "silt",
            SoilKind::SoftClay => "soft clay",
            SoilKind::StiffClay => "stiff clay",
            SoilKind::VeryStiffClay => "very stiff clay",
            SoilKind::SoftLoam => "soft loam",
            SoilKind::StiffLoam => "stiff loam",
            SoilKind::Till => "till",
            SoilKind::OrganicMud => "organic mud",
            SoilKind::MarineMud => "marine mud",
            SoilKind::Peat => "peat",
            SoilKind::Fill => "fill",
            SoilKind::Rock => "rock",
        }
    }

    /// The family it belongs to.
    #[must_use]
    pub const fn group(self) -> SoilGroup {
        match self {
            SoilKind::LooseSand
            | SoilKind::MediumSand
            | SoilKind::DenseSand
            | SoilKind::GravellySand
            | SoilKind::SandyGravel
            | SoilKind::Gravel
            | SoilKind::CoarseGravel
            | SoilKind::Fill => SoilGroup::Granular,
            SoilKind::Silt
            | SoilKind::SoftClay
            | SoilKind::StiffClay
            | SoilKind::VeryStiffClay
            | SoilKind::SoftLoam
            | SoilKind::StiffLoam
            | SoilKind::Till
            | SoilKind::OrganicMud
            | SoilKind::MarineMud
            | SoilKind::Peat => SoilGroup::Fine,
            SoilKind::Rock => SoilGroup::Rock,
        }
    }

    /// Whether the voids are so wide that fluid runs away into them: pressure is not contained.
    #[must_use]
    pub const fn is_open(self) -> bool {
        matches!(self, SoilKind::SandyGravel | SoilKind::Gravel | SoilKind::CoarseGravel)
    }
}
