//! Values as they enter a working, each with where it really comes from: typed, read in a table, assumed, or computed by
//! another part of the assessment.

use pipe::WATER_DENSITY;
use quantity::{GRAVITY, Length, Unit, unit};
use working::{Builder, Evidence, Source};

use crate::context::Context;

/// A value read off the bore line.
pub(crate) fn from_line(w: &mut Builder, symbol: &str, meaning: &str, value: f64, unit: Unit) {
    let source = Source::new("geometry of the bore line, exact", Evidence::Derived);
    w.found(symbol, meaning, "read off the bore line", value, unit, source);
}

/// A value read off the ground line.
pub(crate) fn from_ground(w: &mut Builder, symbol: &str, meaning: &str, value: f64, unit: Unit) {
    let source = Source::new("ground line of the file", Evidence::Given);
    w.found(symbol, meaning, "straight between the points of the ground line", value, unit, source);
}

/// A value of the march along the chain of barrels.
pub(crate) fn from_chain(w: &mut Builder, symbol: &str, meaning: &str, value: f64, unit: Unit) {
    let source = Source::new("chain of rigid barrels, every head position", Evidence::Derived);
    w.found(symbol, meaning, "march of the chain from the tail to the head", value, unit, source);
}

/// A value of hydrostatics that another check shows in full.
pub(crate) fn from_statics(w: &mut Builder, symbol: &str, meaning: &str, value: f64, unit: Unit) {
    let source = Source::new("hydrostatics", Evidence::Derived);
    w.found(symbol, meaning, "weight and pressure of the fluids", value, unit, source);
}

/// A value that follows from the dimensions of the pipe.
pub(crate) fn from_pipe(w: &mut Builder, symbol: &str, meaning: &str, value: f64, unit: Unit) {
    let source = Source::new("geometry of the pipe", Evidence::Derived);
    w.found(symbol, meaning, "from the dimensions of the pipe", value, unit, source);
}

/// Acceleration of gravity, symbol `g`.
pub(crate) fn gravity(w: &mut Builder) {
    let source = Source::new("standard value, ISO 80000-3", Evidence::Published);
    w.given_from("g", "acceleration of gravity, m/s²", GRAVITY, unit::ONE, source);
}

/// Density of fresh water, symbol `rho_w`.
pub(crate) fn water_density(w: &mut Builder) {
    let source = Source::new("fresh water, rounded", Evidence::CommonPractice);
    let density = WATER_DENSITY.si();
    w.given_from("rho_w", "density of water", density, unit::KG_PER_M3, source);
}

impl Context<'_> {
    /// Laying length.
    pub fn laying_length(&self, w: &mut Builder) {
        let v = &self.project.string.pipe.data().laying_length;
        w.given_from("a", "laying length", v.value.si(), unit::M, v.source.clone());
    }

    /// Outside diameter of the iron.
    pub fn outside_diameter(&self, w: &mut Builder) {
        let v = &self.project.string.pipe.data().outside_diameter;
        w.given_from(
            "DE",
            "outside diameter of the iron",
            v.value.si(),
            unit::MM,
            v.source.clone(),
        );
    }

    /// Least wall.
    pub fn wall_min(&self, w: &mut Builder) {
        let v = &self.project.string.pipe.data().wall_min;
        w.given_from("e", "least wall", v.value.si(), unit::MM, v.source.clone());
    }

    /// Modulus of elasticity.
    pub fn modulus(&self, w: &mut Builder) {
        let v = &self.project.string.pipe.data().modulus;
        w.given_from("E", "modulus of elasticity", v.value.si(), unit::GPA, v.source.clone());
    }

    /// Barrel with its coating.
    pub fn barrel(&self, w: &mut Builder) {
        let pipe = &self.project.string.pipe;
        let source = &pipe.data().outside_diameter.source;
        let source = Source::owned(
            format!(
                "outside diameter of the iron ({}) with the coating on both sides",
                source.text
            ),
            source.evidence,
        );
        w.given_from("D", "barrel with coating", pipe.barrel_diameter().si(), unit::MM, source);
    }

    /// Socket with its protection.
    pub fn socket(&self, w: &mut Builder, symbol: &str, largest: Length) {
        let data = self.project.string.pipe.data();
        let source = data.socket_outside_diameter.as_ref().map_or_else(Source::given, |s| {
            if s.source.evidence == Evidence::Given {
                return Source::given();
            }
            let text = format!("socket ({}) with its protection", s.source.text);
            Source::owned(text, s.source.evidence)
        });
        w.given_from(symbol, "socket with its protection", largest.si(), unit::MM, source);
    }

    /// Mass per length, sockets spread over the pipe.
    pub fn mass(&self, w: &mut Builder) {
        let pipe = &self.project.string.pipe;
        let source = pipe.data().stated_mass.as_ref().map_or_else(
            || {
                Source::new(
                    "iron, lining and coating from dimensions and densities, socket mass spread over the pipe",
                    Evidence::Computed,
                )
            },
            |stated| stated.source.clone(),
        );
        let mass = pipe.mass_per_length().si();
        w.given_from("m", "mass per length with sockets", mass, unit::KG_PER_M, source);
    }
}
