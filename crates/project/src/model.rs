//! A valid crossing: every value in SI, every default resolved and listed.

use ground::{GroundLine, GroundModel, Obstacle};
use line::{Line, PlanBend};
use pipe::{Contents, Joint, Pipe};
use quantity::{
    Angle, Density, Flow, Force, Length, MassPerLength, Pressure, Velocity, Viscosity, Volume,
};
use working::{Assumption, Source};

use crate::coordinates::Coordinates;
use crate::diagnostic::Diagnostic;

/// A crossing that passed every check of its file.
#[derive(Debug, Clone)]
pub struct Project {
    /// Name of the crossing.
    pub name: String,
    /// What the reader should know, as that a demo is invented.
    pub note: Option<String>,
    /// Surroundings of the bore.
    pub site: Site,
    /// Soils and borings, where any are given.
    pub strata: Option<GroundModel>,
    /// The bore line.
    pub line: Line,
    /// How the line was described, so that a remedy can change it.
    pub design: LineDesign,
    /// Where the crossing lies in a projected grid, where that was given.
    pub coordinates: Option<Coordinates>,
    /// The string of pipes.
    pub string: StringDesign,
    /// The bore and the rods.
    pub bore: Bore,
    /// The drilling fluid in the bore during the pull.
    pub fluid: Fluid,
    /// The drilling rig.
    pub rig: Rig,
    /// Pressures of the finished main.
    pub service: ServicePressures,
    /// Friction values, margins and shares.
    pub factors: Factors,
    /// Every value that nobody gave, with its source, in the order of the file.
    pub assumptions: Vec<Assumption>,
    /// What somebody should look at in the file, in its order.
    pub warnings: Vec<Diagnostic>,
}

impl Project {
    /// Where the value at a path of the file comes from: the assumption made for it, or the user.
    #[must_use]
    pub fn source_of(&self, path: &str) -> Source {
        self.assumptions
            .iter()
            .find(|a| a.path == path)
            .map_or_else(Source::given, |a| a.source.clone())
    }
}

/// Surroundings of the bore.
#[derive(Debug, Clone)]
pub struct Site {
    /// Ground line above the bore, by chainage.
    pub ground: GroundLine,
    /// Level of free water (river, canal, sea) where there is any.
    pub free_water_level: Option<Length>,
    /// Lowest level of the free water while the bore is drilled, where there is any.
    pub low_water_level: Option<Length>,
    /// Level of the groundwater table.
    pub groundwater_level: Option<Length>,
    /// Cover that the bore's crown must keep outside the end zones.
    pub required_cover: Length,
    /// Stretch behind the entry point in which no cover is required, along the chainage.
    pub end_zone_entry: Length,
    /// Stretch before the exit point in which no cover is required, along the chainage.
    pub end_zone_exit: Length,
    /// What the bore must keep clear of.
    pub obstacles: Vec<Obstacle>,
}

/// How the bore line was described.
#[derive(Debug, Clone)]
pub enum LineDesign {
    /// Entry tangent, arc, level part, arc, exit tangent; bends in plan laid over it.
    Level(line::LevelDesign),
    /// Explicit tangents and arcs.
    Elements {
        /// Where and in which direction the first one begins.
        start: line::Start,
        /// The tangents and arcs.
        elements: Vec<line::Element>,
    },
    /// A survey table.
    Survey,
}

/// The string of pipes and how it is pulled.
#[derive(Debug, Clone)]
pub struct StringDesign {
    /// The pipe.
    pub pipe: Pipe,
    /// Its joint; values nobody knows are `None`.
    pub joint: Joint,
    /// What is inside the pipe during the pull.
    pub contents: Contents,
    /// How the string is put together.
    pub assembly: Assembly,
    /// Friction of the string outside the bore against what carries it.
    pub support_friction: f64,
    /// Slope of the string outside the bore in the direction of the pull; positive climbs towards the bore.
    pub ramp_slope: Angle,
    /// Length of string behind the bore's end when the pull is finished.
    pub extra_length: Length,
    /// Distance from the pulling head to the reamer, along swivel and shackles.
    pub head_link: Length,
}

impl StringDesign {
    /// Whole pipes that a bore and the extra length behind it take, at least one.
    #[must_use]
    pub fn pipes_for(&self, bore_length: Length) -> u32 {
        let pipes = (bore_length + self.extra_length) / self.pipe.laying_length();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "ranges of the file keep the quotient below 10⁵"
        )]
        let whole = (pipes - 1e-9).ceil().clamp(1.0, 1e9) as u32;
        whole
    }
}

/// How the string is put together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Assembly {
    /// All pipes joined before the pull.
    String,
    /// Strings joined one after another, each with this many pipes; the pull stops at each joining.
    SubStrings(Vec<u32>),
    /// Every pipe joined at the pit; the pull stops at every joint.
    PipeByPipe,
}

/// The bore and the rods.
#[derive(Debug, Clone)]
pub struct Bore {
    /// Diameter of the pilot bore.
    pub pilot_diameter: Option<Length>,
    /// Diameters of the ream passes, rising.
    pub ream_diameters: Vec<Length>,
    /// Diameter of the bore in which the string is pulled.
    pub final_diameter: Length,
    /// The drill rods.
    pub rods: Rods,
    /// Drilling the pilot bore.
    pub pilot: Drilling,
    /// The ream passes, one for each.
    pub reaming: Vec<Drilling>,
    /// Pulling the string in.
    pub pulling: Drilling,
    /// Speed of the string while it is pulled.
    pub pulling_speed: Velocity,
}

/// Fluid and tools of one stage of drilling.
#[derive(Debug, Clone, PartialEq)]
pub struct Drilling {
    /// Flow of fresh fluid.
    pub flow: Option<Flow>,
    /// Volume of fluid per volume of ground cut, where it was given; otherwise it follows from the soil.
    pub fluid_ratio: Option<f64>,
    /// Number of nozzles and diameter of one.
    pub nozzles: Option<(u32, Length)>,
    /// Pressure lost in tools behind the nozzles.
    pub motor_loss: Pressure,
    /// Where the fluid comes back.
    pub outlet: Outlet,
}

/// The pit to which fluid comes back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outlet {
    /// Not known: the worse one counts.
    Either,
    /// On the rig side.
    Entry,
    /// On the pipe side.
    Exit,
}

/// The drill rods.
#[derive(Debug, Clone)]
pub struct Rods {
    /// Length of one rod.
    pub length: Option<Length>,
    /// Outside diameter of the rod body.
    pub diameter: Option<Length>,
    /// Inside diameter.
    pub inside_diameter: Option<Length>,
    /// Smallest radius the rods may be bent to.
    pub minimum_radius: Option<Length>,
    /// Pull that the rods may carry.
    pub permitted_pull: Option<Force>,
    /// Mass per length.
    pub mass_per_length: Option<MassPerLength>,
}

/// The drilling fluid in the bore during the pull.
#[derive(Debug, Clone)]
pub struct Fluid {
    /// Density with cuttings.
    pub density: Density,
    /// Pressure above the static head of the fluid while the string is pulled.
    pub excess_pressure: Pressure,
    /// Gel strength after a stop.
    pub gel_strength: Option<Pressure>,
    /// Dial readings of the viscometer.
    pub readings: Option<Readings>,
    /// Plastic viscosity and yield point, given in place of readings.
    pub bingham: Option<(Viscosity, Pressure)>,
    /// Flow law by which pressures are computed.
    pub model: FluidModel,
    /// Eccentricity of rods and string in the bore.
    pub eccentricity: f64,
    /// Density as pumped, without cuttings.
    pub fresh_density: Density,
    /// Bentonite per volume of fluid, where it was given; otherwise it follows from the soil.
    pub bentonite_dose: Option<Density>,
    /// What one tanker takes.
    pub tanker_volume: Volume,
}

/// Flow law by which pressures are computed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FluidModel {
    /// The one with the largest loss.
    Largest,
    /// Bingham.
    Bingham,
    /// Power law of the slow readings.
    PowerLaw,
    /// Herschel-Bulkley.
    HerschelBulkley,
}

/// Dial readings of a six-speed viscometer, in degrees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Readings {
    /// At 600 revolutions per minute.
    pub r600: f64,
    /// At 300 revolutions per minute.
    pub r300: f64,
    /// At 200 revolutions per minute.
    pub r200: Option<f64>,
    /// At 100 revolutions per minute.
    pub r100: Option<f64>,
    /// At 6 revolutions per minute.
    pub r6: Option<f64>,
    /// At 3 revolutions per minute.
    pub r3: Option<f64>,
}

/// The drilling rig.
#[derive(Debug, Clone)]
pub struct Rig {
    /// Greatest pull of the rig.
    pub pullback: Option<Force>,
    /// Force of reamer and swivel ahead of the string during the pull.
    pub reamer_force: Force,
    /// Its pump.
    pub pump: Pump,
}

/// The pump of the rig.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pump {
    /// Flow that it displaces.
    pub capacity: Option<Flow>,
    /// Pressure that it may make.
    pub pressure: Option<Pressure>,
    /// Share of its displacement that it delivers.
    pub efficiency: f64,
}

/// Pressures of the finished main.
#[derive(Debug, Clone)]
pub struct ServicePressures {
    /// Operating pressure.
    pub operating: Option<Pressure>,
    /// Maximum design pressure, with surge.
    pub maximum_design: Option<Pressure>,
    /// Test pressure on site.
    pub test: Option<Pressure>,
    /// Level at which these pressures hold.
    pub reference_level: Length,
}

/// Friction values, margins and shares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Factors {
    /// Friction of the string against the bore wall, for the checks.
    pub friction_bore: f64,
    /// Friction expected in a well-kept bore, shown beside the checks.
    pub friction_bore_expected: f64,
    /// Shear stress of the fluid on the string, for the checks.
    pub fluid_stress: Pressure,
    /// Shear stress expected, shown beside the checks.
    pub fluid_stress_expected: Pressure,
    /// Factor on the wall friction when the string starts again after a stop.
    pub restart: f64,
    /// Share of the allowable joint angle that the planned line may use; the rest is for steering.
    pub joint_angle_share: f64,
    /// Share of the rig's pull that the checks may use.
    pub rig_share: f64,
    /// Share of the proof strength of the barrel that the checks may use.
    pub barrel_share: f64,
    /// Safety against buckling of the pipe's ring.
    pub buckling: f64,
    /// Ratio of bore diameter to largest outside diameter that the check asks for.
    pub bore_ratio: f64,
    /// Utilisation from which a check asks for attention.
    pub attention: f64,
    /// Steepest entry angle, key `entry_angle_limit`; default 20 deg (8 to 20 deg: Najafi, Trenchless Technology
    /// Piping, p. 192, published).
    pub entry_angle_limit: Angle,
    /// Steepest exit angle, key `exit_angle_limit`; default 10 deg, so that the string need not be lifted high (5 to
    /// 10 deg: book extract on entry and exit angles; below 10 deg for large pipe: Najafi p. 192, published).
    pub exit_angle_limit: Angle,
    /// Standard deviation of the bore's position by chance, per measured distance.
    pub position_spread: f64,
    /// How many standard deviations of position a clearance must keep.
    pub position_multiple: f64,
    /// Rules and margins for fluid and ground.
    pub ground: GroundFactors,
}

/// Rules and margins for the pressure of the fluid against the ground, and for movement of the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundFactors {
    /// What the ground is taken to bear.
    pub criterion: LimitCriterion,
    /// Safety of the pressure that sand, gravel and rock bear.
    pub safety_granular: f64,
    /// Safety of the pressure that fine soil bears.
    pub safety_fine: f64,
    /// Pressure over the weight above beyond which nothing may act.
    pub overburden: f64,
    /// Strain of the wall up to which the plastic zone may grow.
    pub wall_strain: f64,
    /// Share of the cover up to which the plastic zone may grow in sand and gravel.
    pub plastic_zone_granular: f64,
    /// The same in fine soil.
    pub plastic_zone_fine: f64,
    /// Density of the returns up to which they flow well.
    pub returns_density: Density,
    /// Share of the annulus that closes.
    pub annulus_closing: f64,
    /// Half-width of the settlement trough over depth in sand.
    pub trough_granular: f64,
    /// The same in fine soil.
    pub trough_fine: f64,
    /// Greatest distance between borings.
    pub boring_spacing: Length,
    /// How far borings reach below the bore.
    pub boring_depth: Length,
}

/// What the ground is taken to bear.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LimitCriterion {
    /// Least of the cavity's limits by wall strain, by cover and by a weaker layer.
    LimitedCavity,
    /// Plastic zone limited by cover and by a weaker layer only.
    CavityByCover,
    /// First yield of the wall.
    FirstYield,
    /// Tension in the wall, elastic ground.
    Tension,
}

impl LimitCriterion {
    /// All criteria with the words of the file.
    pub const ALL: [(&'static str, LimitCriterion); 4] = [
        ("limited cavity", LimitCriterion::LimitedCavity),
        ("cavity by cover", LimitCriterion::CavityByCover),
        ("first yield", LimitCriterion::FirstYield),
        ("tension", LimitCriterion::Tension),
    ];

    /// The words of the file.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::ALL.iter().find(|(_, c)| *c == self).map_or("", |(word, _)| word)
    }
}

/// Bends in plan of a level design, for those who draw them.
impl LineDesign {
    /// The plan bends, where the line was described with any.
    #[must_use]
    pub fn bends(&self) -> &[PlanBend] {
        match self {
            LineDesign::Level(design) => &design.bends,
            _ => &[],
        }
    }
}
