use quantity::{Density, GRAVITY, Length, Pressure, UnitWeight};

/// The way of the fluid from the tool to the pit where it comes out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutletPath {
    /// Level of the pit.
    pub level: Length,
    /// Density of the returns, with cuttings.
    pub density: Density,
    /// Loss per length along the way.
    pub gradient: UnitWeight,
}

/// Pressure at a place, and the parts of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PathPressure {
    /// Column of fluid up to the pit; zero where the place lies above the pit and the bore runs partly empty.
    pub column: Pressure,
    /// Friction on the way.
    pub friction: Pressure,
}

impl OutletPath {
    /// Pressure at a level, the given length of bore away from the pit.
    ///
    /// ```text
    /// p = ρ g (z_out − z) + (dp/dL) s,   each part at least 0
    /// ```
    /// As [`pressure_at_depth`](crate::pressure_at_depth), without checks of its arguments, for many places of one bore.
    #[must_use]
    pub fn pressure(&self, level: Length, length: Length) -> PathPressure {
        let column = self.density.si() * GRAVITY * (self.level - level).si();
        PathPressure {
            column: Pressure::from_si(column.max(0.0)),
            friction: Pressure::from_si(self.gradient.si() * length.si().max(0.0)),
        }
    }
}

impl PathPressure {
    /// Column and friction together.
    #[must_use]
    pub fn total(self) -> Pressure {
        self.column + self.friction
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pressure_at_depth;

    #[test]
    fn it_is_the_pressure_at_depth_below_the_pit_and_friction_only_above() {
        let path = OutletPath {
            level: Length::from_si(3.0),
            density: Density::from_si(1200.0),
            gradient: UnitWeight::from_si(250.0),
        };
        let (level, length) = (Length::from_si(-5.0), Length::from_si(120.0));
        let expected =
            pressure_at_depth(path.density, Length::from_si(8.0), path.gradient, length).unwrap();
        assert_eq!(path.pressure(level, length).total(), expected);
        let above = path.pressure(Length::from_si(4.0), length);
        assert_eq!(above.column, Pressure::ZERO);
        assert_eq!(above.total().si(), 30e3);
    }
}
