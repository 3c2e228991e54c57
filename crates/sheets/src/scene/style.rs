//! What a mark means; how it looks follows from that alone.

/// What a mark belongs to. Colour, width and line type follow from it, on paper and in DXF alike.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Layer {
    /// Border of the sheet, title block, frames of tables.
    Frame,
    /// Thin lines of reference: levels, chainages, coordinates.
    Grid,
    /// Ground line.
    Ground,
    /// Level of free water and of groundwater.
    Water,
    /// Boundaries between strata and their patterns.
    Strata,
    /// Borings.
    Boring,
    /// What the line must keep clear of, and neighbours.
    Obstacle,
    /// Clearance around an obstacle, cover line, zones.
    Clearance,
    /// Wall of the bore or of the displaced ground.
    Bore,
    /// Axis of the bore.
    Axis,
    /// Barrels and sockets.
    Pipe,
    /// Old main.
    Host,
    /// Pits, machine, string outside the bore.
    Site,
    /// Dimensions.
    Dimension,
    /// Words.
    Text,
}

/// Filling of an area, legible in black and white and for colour-blind readers: shape tells, colour only helps.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Pattern {
    /// Fine soil that is soft.
    SoftClay,
    /// Fine soil that is stiff.
    StiffClay,
    /// Silt.
    Silt,
    /// Sand.
    Sand,
    /// Gravel.
    Gravel,
    /// Peat and other organic soil.
    Peat,
    /// Fill and topsoil.
    Fill,
    /// Rock.
    Rock,
    /// Free water.
    Water,
    /// Iron, cut.
    Iron,
    /// Mortar, cut.
    Mortar,
    /// Drilling fluid in the annulus.
    Fluid,
    /// Solid, in the colour of the layer.
    Solid,
    /// Paper colour: hides what lies below.
    Blank,
}
