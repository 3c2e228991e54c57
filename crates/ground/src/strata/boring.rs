use quantity::{Length, Pressure};

/// One boring with what was found in it.
#[derive(Debug, Clone, PartialEq)]
pub struct Boring {
    /// Name, unique on the site.
    pub name: String,
    /// Chainage along the plan line.
    pub chainage: Length,
    /// Distance from the plan line, positive to the right; borings are grouted, or they lead fluid to the surface.
    pub offset: Length,
    /// Level of the ground at the boring.
    pub level: Length,
    /// Strata from the top down; each begins where the one before ends, the first at the ground.
    pub strata: Vec<Stratum>,
    /// Level of the groundwater found in it.
    pub groundwater_level: Option<Length>,
    /// Standard penetration tests.
    pub penetration: Vec<PenetrationTest>,
    /// Readings of cone penetration.
    pub cone: Vec<ConeReading>,
}

/// One stratum of a boring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stratum {
    /// Index of the soil in the list of the site.
    pub soil: usize,
    /// Level of its base.
    pub base: Length,
}

/// A standard penetration test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PenetrationTest {
    /// Level at which it began.
    pub level: Length,
    /// Blows for 300 mm, as counted.
    pub blows: f64,
    /// Blows at an energy of 60 %, where energy or corrected count is known.
    pub n60: Option<f64>,
}

/// A reading of cone penetration.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ConeReading {
    /// Level of the tip.
    pub level: Length,
    /// Resistance of the tip.
    pub resistance: Pressure,
}

impl Boring {
    /// Level of the end of the boring; that of the ground where it has no stratum.
    #[must_use]
    pub fn end(&self) -> Length {
        self.strata.last().map_or(self.level, |s| s.base)
    }

    /// Index of the soil at a level; the boundary belongs to the stratum above.
    #[must_use]
    pub fn soil_at(&self, level: Length) -> Option<usize> {
        if level > self.level {
            return None;
        }
        self.strata.iter().find(|s| level >= s.base).map(|s| s.soil)
    }

    /// The strata as soil, top and base in metres.
    pub(crate) fn spans(&self) -> Vec<Span> {
        let mut top = self.level.si();
        let mut list = Vec::with_capacity(self.strata.len());
        for stratum in &self.strata {
            let base = stratum.base.si();
            list.push(Span { soil: stratum.soil, top, base });
            top = base;
        }
        list
    }
}

/// A stretch of one soil in a vertical line, levels in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Span {
    pub soil: usize,
    pub top: f64,
    pub base: f64,
}

impl Span {
    pub fn thickness(self) -> f64 {
        self.top - self.base
    }
}
