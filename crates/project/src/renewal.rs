//! A valid renewal of a main by pipe bursting: every value in SI, every default resolved and listed.

use ground::{GroundLine, Soil};
use quantity::{Angle, Force, Length, MassPerLength, Pressure, Time, Velocity};
use working::{Assumption, Source};

use crate::coordinates::HostCoordinates;
use crate::diagnostic::Diagnostic;
use crate::model::{ServicePressures, StringDesign};

/// A renewal that passed every check of its file.
#[derive(Debug, Clone)]
pub struct Renewal {
    /// Name of the renewal.
    pub name: String,
    /// What the reader should know, as that a demo is invented.
    pub note: Option<String>,
    /// The street.
    pub street: Street,
    /// The old main.
    pub host: Host,
    /// Where the old main lies in a projected grid, where that was given.
    pub coordinates: Option<HostCoordinates>,
    /// Soils of the site.
    pub soils: Vec<Soil>,
    /// Fill around the old main.
    pub fill: Fill,
    /// The string of pipes.
    pub string: StringDesign,
    /// Word of the coating on the new barrels.
    pub coating: &'static str,
    /// The head and how it is pulled.
    pub burst: Burst,
    /// Runs between pits, in the order of the work.
    pub runs: Vec<Run>,
    /// The pits.
    pub pit: Pit,
    /// The bursting machine.
    pub machine: Machine,
    /// Pressures of the finished main.
    pub service: ServicePressures,
    /// Friction values, margins and shares.
    pub factors: BurstFactors,
    /// Every value that nobody gave, with its source, in the order of the file.
    pub assumptions: Vec<Assumption>,
    /// What somebody should look at in the file, in its order.
    pub warnings: Vec<Diagnostic>,
}

impl Renewal {
    /// Where the value at a path of the file comes from: the assumption made for it, or the user.
    #[must_use]
    pub fn source_of(&self, path: &str) -> Source {
        let assumed = self.assumptions.iter().find(|a| a.path == path);
        assumed.map_or_else(Source::given, |a| a.source.clone())
    }

    /// The soil around the old main.
    #[must_use]
    pub fn soil(&self) -> Option<&Soil> {
        self.soils.get(self.fill.soil)
    }
}

/// The street above the old main.
#[derive(Debug, Clone)]
pub struct Street {
    /// Ground line, by chainage along the old main.
    pub ground: GroundLine,
    /// Level of the groundwater.
    pub groundwater_level: Option<Length>,
    /// Heave of the surface that is borne.
    pub heave_limit: Option<Length>,
    /// Settlement of the surface that is borne.
    pub settlement_limit: Option<Length>,
    /// What lies near the old main.
    pub neighbours: Vec<Neighbour>,
}

/// Something near the old main.
#[derive(Debug, Clone, PartialEq)]
pub struct Neighbour {
    /// Name.
    pub name: String,
    /// Word of its kind.
    pub kind: &'static str,
    /// Where it lies.
    pub place: NeighbourPlace,
    /// Level of its axis, or of a foundation's underside.
    pub level: Length,
    /// Outside diameter.
    pub diameter: Length,
    /// Movement that it bears.
    pub allowance: Option<Length>,
}

/// Where a neighbour lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NeighbourPlace {
    /// It crosses at a chainage.
    Crossing {
        /// Where.
        at: Length,
    },
    /// It runs beside between two chainages.
    Beside {
        /// From.
        from: Length,
        /// To.
        to: Length,
        /// Horizontal distance between the axes.
        offset: Length,
    },
}

/// The old main.
#[derive(Debug, Clone)]
pub struct Host {
    /// Its axis, by chainage; a line of points like the ground line.
    pub axis: GroundLine,
    /// Nominal size.
    pub nominal_diameter: Length,
    /// Whether customers are supplied meanwhile; not known where it was not said.
    pub temporary_supply: Option<bool>,
    /// Stretches of one material, in order.
    pub stretches: Vec<Stretch>,
    /// Bends.
    pub bends: Vec<HostBend>,
    /// What is built into it.
    pub features: Vec<Feature>,
    /// Services.
    pub services: Vec<Connection>,
    /// What was decided on asbestos cement.
    pub asbestos: Asbestos,
}

/// A stretch of one material and size.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// Where it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Its material.
    pub material: Material,
    /// Inside diameter.
    pub inside_diameter: Length,
    /// Wall.
    pub wall: Length,
    /// Strength at the low end of the band, for planning, and at the high end.
    pub strength: [Pressure; 3],
}

/// Material of an old main.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Material {
    /// Grey cast iron.
    GreyIron,
    /// Ductile iron.
    DuctileIron,
    /// Steel.
    Steel,
    /// Asbestos cement.
    AsbestosCement,
    /// Vitrified clay.
    Clay,
    /// Plain concrete.
    Concrete,
    /// Reinforced concrete.
    ReinforcedConcrete,
    /// Prestressed concrete.
    PrestressedConcrete,
    /// PVC.
    Pvc,
    /// Polyethylene.
    Pe,
    /// Glass-fibre reinforced plastic.
    Grp,
}

/// How a host gives way to a static head.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Yields {
    /// It breaks.
    Breaks,
    /// Blades split it.
    Split,
    /// It may be broken where it is lightly reinforced or badly deteriorated: a test section decides.
    Doubtful,
    /// It cannot be burst.
    Not,
}

impl Material {
    /// All materials with the words of the file.
    pub const ALL: [(&'static str, Material); 11] = [
        ("grey cast iron", Material::GreyIron),
        ("ductile iron", Material::DuctileIron),
        ("steel", Material::Steel),
        ("asbestos cement", Material::AsbestosCement),
        ("vitrified clay", Material::Clay),
        ("plain concrete", Material::Concrete),
        ("reinforced concrete", Material::ReinforcedConcrete),
        ("prestressed concrete", Material::PrestressedConcrete),
        ("PVC", Material::Pvc),
        ("PE", Material::Pe),
        ("GRP", Material::Grp),
    ];

    /// The words of the file.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::ALL.iter().find(|(_, m)| *m == self).map_or("", |(word, _)| word)
    }

    /// How it gives way to a static head.
    ///
    /// # Source
    /// Industry pages, one manufacturer's manual and contractors' pages (published); prestressed concrete from memory.
    #[must_use]
    pub const fn yields(self) -> Yields {
        match self {
            Material::GreyIron | Material::AsbestosCement | Material::Clay | Material::Concrete => {
                Yields::Breaks
            }
            Material::DuctileIron | Material::Steel | Material::Pvc | Material::Pe => Yields::Split,
            Material::ReinforcedConcrete => Yields::Doubtful,
            Material::PrestressedConcrete | Material::Grp => Yields::Not,
        }
    }

    /// Usual strengths in MPa, low, middle and high: tensile strength of what breaks, flow stress of what is split; none
    /// for what cannot be burst.
    ///
    /// # Source
    /// Remembered ranges of old pipe; middle values and all of metals and plastics that are split are judgement.
    #[must_use]
    pub const fn strengths(self) -> Option<[f64; 3]> {
        match self {
            Material::GreyIron => Some([70.0, 150.0, 250.0]),
            Material::AsbestosCement => Some([15.0, 20.0, 25.0]),
            Material::Clay => Some([8.0, 10.0, 15.0]),
            Material::Concrete => Some([2.0, 3.5, 5.0]),
            Material::ReinforcedConcrete => Some([2.0, 5.0, 10.0]),
            Material::DuctileIron => Some([300.0, 350.0, 420.0]),
            Material::Steel => Some([235.0, 350.0, 450.0]),
            Material::Pvc => Some([40.0, 50.0, 60.0]),
            Material::Pe => Some([18.0, 22.0, 30.0]),
            Material::PrestressedConcrete | Material::Grp => None,
        }
    }
}

/// A bend of the old main.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HostBend {
    /// Chainage of its middle.
    pub at: Length,
    /// Turn of the axis.
    pub angle: Angle,
    /// Radius over which it turns; none where it turns at one point.
    pub radius: Option<Length>,
}

/// Something in or on the old main.
#[derive(Debug, Clone, PartialEq)]
pub struct Feature {
    /// Where, or where it begins.
    pub at: Length,
    /// Where it ends, of what has a length.
    pub to: Option<Length>,
    /// Word of its kind.
    pub kind: &'static str,
    /// Word of what is done about it; none where nothing is decided.
    pub action: Option<&'static str>,
    /// What else is known.
    pub note: Option<String>,
}

/// A service connected to the old main.
#[derive(Debug, Clone, PartialEq)]
pub struct Connection {
    /// Where.
    pub at: Length,
    /// What it serves.
    pub name: Option<String>,
    /// Whether it is dug up and taken off; not known where it was not said.
    pub dug_up: Option<bool>,
}

/// What was decided on a host of asbestos cement.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Asbestos {
    /// Authority that decided.
    pub authority: Option<String>,
    /// Number and date of its decision.
    pub notice: Option<String>,
    /// Word of what it decided.
    pub decision: Option<&'static str>,
    /// Where fragments and spoil go.
    pub disposal: Option<String>,
    /// Who measures fibres in the air.
    pub air_monitoring: Option<String>,
}

/// Fill around the old main.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fill {
    /// Index of its soil.
    pub soil: usize,
    /// Width of the old trench.
    pub trench_width: Option<Length>,
    /// Whether it is dense.
    pub dense: bool,
}

/// The head and how it is pulled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Burst {
    /// Largest diameter of the expander; none where the socket is not known.
    pub expander_diameter: Option<Length>,
    /// Half angle of the cone.
    pub cone_half_angle: Angle,
    /// Friction of the cone.
    pub cone_friction: f64,
    /// Blades that cut at the same time.
    pub cutters: u32,
    /// Whether the string is lubricated.
    pub lubricated: bool,
    /// Speed of the head while it moves.
    pub speed: Velocity,
    /// Time to join and protect one pipe.
    pub joint_time: Time,
    /// Time to set the machine again.
    pub reset_time: Time,
}

/// One pull between two pits.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Name.
    pub name: String,
    /// Chainage of the launch pit.
    pub launch: Length,
    /// Chainage of the machine pit.
    pub machine: Length,
}

impl Run {
    /// Its length along the chainage.
    #[must_use]
    pub fn length(&self) -> Length {
        (self.machine - self.launch).abs()
    }

    /// Its ends in the order of the chainage.
    #[must_use]
    pub fn stretch(&self) -> (Length, Length) {
        (self.launch.min(self.machine), self.launch.max(self.machine))
    }

    /// Whether a chainage lies in it.
    #[must_use]
    pub fn holds(&self, chainage: Length) -> bool {
        let (from, to) = self.stretch();
        chainage >= from && chainage <= to
    }
}

/// The pits.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Pit {
    /// Length of the launch pit.
    pub launch_length: Option<Length>,
    /// Width of the launch pit.
    pub launch_width: Option<Length>,
    /// Length of the machine pit.
    pub machine_length: Option<Length>,
    /// Width of the machine pit.
    pub machine_width: Option<Length>,
    /// Width of the bearing plate, and depths of its upper and lower edge.
    pub plate: Option<[Length; 3]>,
}

/// The bursting machine.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Machine {
    /// Greatest pull.
    pub pullback: Option<Force>,
    /// Mass of the rods per length.
    pub rod_mass: Option<MassPerLength>,
}

/// Friction values, margins and shares of pipe bursting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BurstFactors {
    /// Friction of the string on the ground: low, planning, high.
    pub friction: [f64; 3],
    /// Horizontal over vertical stress of the fill.
    pub stress_ratio: f64,
    /// Share of the hole that has closed on the barrels, for planning.
    pub collapsed_share: f64,
    /// Factor on the friction of the string at a restart.
    pub restart: f64,
    /// Share of the machine's pull that may be used.
    pub rig_share: f64,
    /// Safety of the reaction wall.
    pub wall_safety: f64,
    /// Share of the allowable joint angle that curves of the host may use.
    pub joint_angle_share: f64,
    /// Share of the barrel's proof strength that may be used.
    pub barrel_share: f64,
    /// Share of the displaced volume that moves the ground.
    pub heave_ratio: f64,
    /// Longest run.
    pub longest_run: Length,
    /// Utilisation from which a check asks for attention.
    pub attention: f64,
}

impl BurstFactors {
    /// Friction taken where the file gives none: low, planning, high.
    ///
    /// # Source
    /// Remembered ranges of ductile iron in sand, lubricated and dry.
    #[must_use]
    pub const fn usual_friction(lubricated: bool) -> [f64; 3] {
        if lubricated { [0.15, 0.25, 0.3] } else { [0.3, 0.4, 0.6] }
    }
}
