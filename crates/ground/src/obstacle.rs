use quantity::Length;

/// What an obstacle is; decides its symbol on drawings and which rules are shown for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ObstacleKind {
    /// A river, creek, canal or ditch.
    Watercourse,
    /// A road, lane or path.
    Road,
    /// A railway.
    Railway,
    /// A dike, flood bank or embankment.
    Embankment,
    /// A water, gas or other pressure main.
    Main,
    /// A cable or duct.
    Cable,
    /// A drain or sewer.
    Drain,
    /// A building or foundation.
    Building,
    /// Anything else.
    Other,
}

/// Extent of an obstacle in the developed section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// All that lies above a level over a stretch: a bed, a carriageway, a foundation. The bore
    /// passes below.
    Above {
        /// Chainage at which it begins.
        from: Length,
        /// Chainage at which it ends.
        to: Length,
        /// Level of its underside.
        underside: Length,
    },
    /// A crossing main, cable or drain; the bore passes above or below.
    Round {
        /// Chainage of its axis.
        at: Length,
        /// Level of its axis.
        level: Length,
        /// Outside diameter.
        diameter: Length,
    },
}

/// Something the bore must keep clear of.
#[derive(Debug, Clone, PartialEq)]
pub struct Obstacle {
    /// Name for the reader.
    pub name: String,
    /// What it is.
    pub kind: ObstacleKind,
    /// Where it is.
    pub shape: Shape,
    /// Clearance that its owner asks for.
    pub clearance: Option<Length>,
    /// Settlement that it bears.
    pub settlement_limit: Option<Length>,
    /// Heave that it bears.
    pub heave_limit: Option<Length>,
}

/// On which side the bore passes an obstacle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Passing {
    /// The bore runs below it.
    Below,
    /// The bore runs above it.
    Above,
}

impl ObstacleKind {
    /// All kinds, in the order of lists.
    pub const ALL: [ObstacleKind; 9] = [
        ObstacleKind::Watercourse,
        ObstacleKind::Road,
        ObstacleKind::Railway,
        ObstacleKind::Embankment,
        ObstacleKind::Main,
        ObstacleKind::Cable,
        ObstacleKind::Drain,
        ObstacleKind::Building,
        ObstacleKind::Other,
    ];

    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            ObstacleKind::Watercourse => "watercourse",
            ObstacleKind::Road => "road",
            ObstacleKind::Railway => "railway",
            ObstacleKind::Embankment => "embankment",
            ObstacleKind::Main => "main",
            ObstacleKind::Cable => "cable",
            ObstacleKind::Drain => "drain",
            ObstacleKind::Building => "building",
            ObstacleKind::Other => "other",
        }
    }
}

impl Shape {
    /// Chainages between which the obstacle lies.
    #[must_use]
    pub fn stretch(&self) -> (Length, Length) {
        match *self {
            Shape::Above { from, to, .. } => (from, to),
            Shape::Round { at, diameter, .. } => (at - diameter * 0.5, at + diameter * 0.5),
        }
    }
}
