use std::f64::consts::PI;

use quantity::{
    Area, Density, Force, ForcePerLength, GRAVITY, Length, Mass, MassPerLength, Volume, unit,
};

use crate::error::{finite, not_negative, positive, within};
use crate::{Pipe, PipeError};

/// Density of fresh water, as the trade uses it.
pub const WATER_DENSITY: Density = Density::from_si(1000.0);

/// What is inside the pipe while it lies in the fluid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Contents {
    /// Air.
    Empty,
    /// Water up to the crown.
    Water,
    /// This fraction of the bore holds water, in a separate ballast line. A free surface would run
    /// to the low point, so the fraction is meant along the whole string; mass and displacement of
    /// the ballast line itself are left out.
    Part(f64),
}

impl Contents {
    /// Share of the bore's area that holds water.
    ///
    /// # Errors
    /// [`PipeError::OutOfRange`] for a fraction outside 0 to 1.
    pub fn fraction(self) -> Result<f64, PipeError> {
        match self {
            Contents::Empty => Ok(0.0),
            Contents::Water => Ok(1.0),
            Contents::Part(f) => {
                within("ballast fraction", f, unit::ONE, (0.0..=1.0).contains(&f), || {
                    "0 to 1".to_owned()
                })
            }
        }
    }
}

/// Net weight of a pipe in a fluid per length; positive sinks, negative floats.
///
/// ```text
/// w = g ( m + ρ_w A_w − ρ_f A_d )
/// ```
/// | symbol | meaning                              | unit  | argument          |
/// |--------|--------------------------------------|-------|-------------------|
/// | m      | mass of the empty pipe per length    | kg/m  | `mass_per_length` |
/// | A_w    | area of the bore that holds water    | m²    | `water_area`      |
/// | A_d    | area of fluid displaced              | m²    | `displaced_area`  |
/// | ρ_f, ρ_w | densities of fluid and water       | kg/m³ | `fluid_density`, `water_density` |
///
/// # Source
/// Hydrostatics, exact.
/// # Errors
/// [`PipeError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/pipe/buoyancy-table.toml` (computed).
pub fn net_weight(
    mass_per_length: MassPerLength,
    displaced_area: Area,
    fluid_density: Density,
    water_area: Area,
    water_density: Density,
) -> Result<ForcePerLength, PipeError> {
    let m = positive("mass per length", mass_per_length.si(), unit::KG_PER_M)?;
    let displaced = positive("displaced area", displaced_area.si(), unit::M2)?;
    let fluid = positive("fluid density", fluid_density.si(), unit::KG_PER_M3)?;
    let area = not_negative("area of water", water_area.si(), unit::M2)?;
    let water = positive("water density", water_density.si(), unit::KG_PER_M3)?;
    let w = GRAVITY * (m + water * area - fluid * displaced);
    finite("net weight", w, unit::N_PER_M).map(ForcePerLength::from_si)
}

/// Share of the bore that must hold water to make the net weight zero.
///
/// ```text
/// φ = ( ρ_f A_d − m ) / ( ρ_w A_b )
/// ```
/// Symbols as in [`net_weight`], A_b area of the bore. Zero or less: the empty pipe does not float.
/// Above one: it floats even when full. Neither is clamped.
///
/// # Source
/// Hydrostatics, exact.
/// # Errors
/// [`PipeError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/pipe/buoyancy-table.toml` (computed).
pub fn neutral_fill(
    mass_per_length: MassPerLength,
    displaced_area: Area,
    fluid_density: Density,
    bore_area: Area,
    water_density: Density,
) -> Result<f64, PipeError> {
    let m = positive("mass per length", mass_per_length.si(), unit::KG_PER_M)?;
    let displaced = positive("displaced area", displaced_area.si(), unit::M2)?;
    let fluid = positive("fluid density", fluid_density.si(), unit::KG_PER_M3)?;
    let bore = positive("bore area", bore_area.si(), unit::M2)?;
    let water = positive("water density", water_density.si(), unit::KG_PER_M3)?;
    finite("neutral fill", (fluid * displaced - m) / (water * bore), unit::ONE)
}

/// Area of a ring, from its outer diameter and thickness.
fn ring(outer: Length, thickness: Length) -> f64 {
    PI * (outer.si() - thickness.si()) * thickness.si()
}

impl Pipe {
    /// Area of the iron at the nominal wall, `π (DE − e) e`.
    #[must_use]
    pub fn iron_area(&self) -> Area {
        Area::from_si(ring(self.outside_diameter(), self.wall_nominal()))
    }

    /// Mass of the barrel per length: iron, lining and coating at nominal thickness, without
    /// socket.
    ///
    /// ```text
    /// m = π (DE − e) e ρ_iron + π (d_i − t_l) t_l ρ_l + π (DE + t_c) t_c ρ_c
    /// ```
    /// d_i bore of the iron, t_l and t_c thickness of lining and coating. Exact for round rings.
    ///
    /// # Checked by
    /// published foundry masses, `cases/pipe/foundry-k9-mass.toml`.
    #[must_use]
    pub fn barrel_mass_per_length(&self) -> MassPerLength {
        let iron = self.iron_area().si() * self.data().iron_density.value.si();
        let lining = ring(self.iron_bore(), self.lining().thickness) * self.lining().density.si();
        let coating =
            ring(self.barrel_diameter(), self.coating().thickness) * self.coating().density.si();
        MassPerLength::from_si(iron + lining + coating)
    }

    /// Mass of one pipe: barrel over the laying length, and socket; or what its data sheet states.
    #[must_use]
    pub fn mass_per_pipe(&self) -> Mass {
        if let Some(stated) = &self.data().stated_mass {
            return Mass::from_si(stated.value.si() * self.laying_length().si());
        }
        let barrel = self.barrel_mass_per_length().si() * self.laying_length().si();
        Mass::from_si(barrel + self.socket_mass().si())
    }

    /// Mass per length, sockets spread over the laying length.
    #[must_use]
    pub fn mass_per_length(&self) -> MassPerLength {
        MassPerLength::from_si(self.mass_per_pipe().si() / self.laying_length().si())
    }

    /// Weight in air per length, empty, sockets spread over the laying length.
    #[must_use]
    pub fn weight_in_air(&self) -> ForcePerLength {
        ForcePerLength::from_si(self.mass_per_length().si() * GRAVITY)
    }

    /// Weight in air of one pipe, empty.
    #[must_use]
    pub fn weight_per_pipe(&self) -> Force {
        Force::from_si(self.mass_per_pipe().si() * GRAVITY)
    }

    /// Volume of fluid that one pipe displaces: coated barrel over the laying length, and the
    /// socket's bulge.
    ///
    /// The bulge is socket mass / iron density: the iron that stands outside the barrel. The seal's
    /// gap inside the socket, the sleeve and the cone are not counted. Judgement: an annulus of the
    /// socket's diameter, 0.13 to 0.2 m long, would displace about 2 % more at DN 80 and 0.6 % more
    /// at DN 600.
    #[must_use]
    pub fn displaced_volume_per_pipe(&self) -> Volume {
        let d = self.barrel_diameter().si();
        let barrel = PI / 4.0 * d * d * self.laying_length().si();
        let bulge = self.socket_mass().si() / self.data().iron_density.value.si();
        Volume::from_si(barrel + bulge)
    }

    /// Area of the bore inside the lining.
    #[must_use]
    pub fn bore_area(&self) -> Area {
        Area::from_si(PI / 4.0 * self.bore().si() * self.bore().si())
    }

    /// Area of fluid displaced per length, socket bulges spread over the laying length.
    #[must_use]
    pub fn displaced_area(&self) -> Area {
        Area::from_si(self.displaced_volume_per_pipe().si() / self.laying_length().si())
    }

    /// Net weight in a fluid per length, sockets spread over the laying length; positive sinks,
    /// negative floats. [`net_weight`] with [`WATER_DENSITY`] for the water inside.
    ///
    /// # Errors
    /// [`PipeError::OutOfRange`] for a fluid density that is not positive and for a ballast
    /// fraction outside 0 to 1.
    ///
    /// # Checked by
    /// `cases/pipe/buoyancy-table.toml` (computed), neutral fill by the round trip in the tests.
    pub fn net_weight(
        &self,
        fluid_density: Density,
        contents: Contents,
    ) -> Result<ForcePerLength, PipeError> {
        let water = Area::from_si(contents.fraction()? * self.bore_area().si());
        let (mass, displaced) = (self.mass_per_length(), self.displaced_area());
        net_weight(mass, displaced, fluid_density, water, WATER_DENSITY)
    }

    /// Share of the bore that must hold water to make the net weight zero; see [`neutral_fill`].
    ///
    /// # Errors
    /// [`PipeError::OutOfRange`] for densities that are not positive.
    pub fn neutral_fill(
        &self,
        fluid_density: Density,
        water_density: Density,
    ) -> Result<f64, PipeError> {
        let (mass, displaced) = (self.mass_per_length(), self.displaced_area());
        neutral_fill(mass, displaced, fluid_density, self.bore_area(), water_density)
    }

    /// Fluid density in which the empty pipe neither sinks nor floats.
    #[must_use]
    pub fn neutral_density(&self) -> Density {
        Density::from_si(self.mass_per_pipe().si() / self.displaced_volume_per_pipe().si())
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::{CoatingKind, coating, en545_pipe};

    /// Pipe without socket and with 2300 kg/m³ lining, as the table of buoyancies in the trade
    /// notes assumes.
    fn plain(dn: u32) -> Pipe {
        let mut data = en545_pipe(dn, "K9").expect("valid").into_data();
        data.socket_mass.value = Mass::ZERO;
        data.lining.value.density = Density::from_si(2300.0);
        Pipe::new(data).expect("valid")
    }

    fn kilograms(pipe: &Pipe, density: f64, contents: Contents) -> f64 {
        pipe.net_weight(Density::from_si(density), contents).expect("valid").si() / GRAVITY
    }

    #[test]
    fn complete_filling_pays_only_from_about_dn_400() {
        for dn in [200, 250, 300, 350, 400, 450, 500, 600, 700, 800, 900, 1000] {
            let pipe = plain(dn);
            let empty = kilograms(&pipe, 1100.0, Contents::Empty);
            let full = kilograms(&pipe, 1100.0, Contents::Water);
            assert!(empty < 0.0 && full > 0.0, "DN {dn}: {empty} and {full}");
            assert_eq!(full < -empty, dn >= 400, "DN {dn}: {empty} empty, {full} full");
        }
        for dn in [100, 150] {
            assert!(kilograms(&plain(dn), 1100.0, Contents::Empty) > 0.0, "DN {dn} floats");
        }
    }

    #[test]
    fn an_empty_coated_dn_300_floats_in_heavy_mud_and_sinks_with_water() {
        let mut data = plain(300).into_data();
        data.coating = coating(CoatingKind::FibreMortar);
        let pipe = Pipe::new(data).expect("valid");
        let empty = kilograms(&pipe, 1150.0, Contents::Empty);
        let full = kilograms(&pipe, 1150.0, Contents::Water);
        assert!((empty + 30.0).abs() < 1.0, "{empty}");
        assert!((full - 42.0).abs() < 1.5, "{full}");
    }

    #[test]
    fn neutral_fill_is_computed_through_zero_and_not_clamped() {
        let fluid = Density::from_si(1100.0);
        let fill = plain(600).neutral_fill(fluid, WATER_DENSITY).expect("valid");
        assert!((fill - 0.658).abs() < 0.005, "{fill}");
        assert!(plain(100).neutral_fill(fluid, WATER_DENSITY).expect("valid") < 0.0);
        assert!(plain(1000).neutral_fill(2.0 * fluid, WATER_DENSITY).expect("valid") > 1.0);
    }

    #[test]
    fn impossible_densities_and_fractions_are_refused() {
        let pipe = plain(300);
        for density in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(pipe.net_weight(Density::from_si(density), Contents::Empty).is_err());
            assert!(pipe.neutral_fill(Density::from_si(density), WATER_DENSITY).is_err());
        }
        for fraction in [-0.1, 1.1, f64::NAN] {
            let e = pipe.net_weight(WATER_DENSITY, Contents::Part(fraction)).expect_err("accepted");
            assert!(e.to_string().starts_with("ballast fraction must be 0 to 1"), "{e}");
        }
    }

    proptest! {
        #[test]
        fn denser_fluid_always_lifts_more(
            index in 0usize..23, density in 900.0f64..1900.0, more in 0.1f64..300.0,
        ) {
            let sizes = crate::sizes(crate::Standard::En545).unwrap();
            let crate::Nominal::Dn(dn) = sizes[index] else { return Ok(()) };
            let pipe = en545_pipe(dn, "K9").unwrap();
            let at = |d| kilograms(&pipe, d, Contents::Empty);
            prop_assert!(at(density + more) < at(density));
        }

        #[test]
        fn the_neutral_fill_makes_the_net_weight_vanish(density in 1000.0f64..1500.0) {
            let pipe = en545_pipe(600, "C30").unwrap();
            let fluid = Density::from_si(density);
            let fill = pipe.neutral_fill(fluid, WATER_DENSITY).unwrap();
            if (0.0..=1.0).contains(&fill) {
                let rest = pipe.net_weight(fluid, Contents::Part(fill)).unwrap().si();
                prop_assert!(rest.abs() < 1e-6, "{rest} N/m remain");
            }
        }

        #[test]
        fn in_its_neutral_density_the_empty_pipe_neither_sinks_nor_floats(index in 0usize..23) {
            let sizes = crate::sizes(crate::Standard::En545).unwrap();
            let crate::Nominal::Dn(dn) = sizes[index] else { return Ok(()) };
            let pipe = en545_pipe(dn, "C100").unwrap();
            let rest = pipe.net_weight(pipe.neutral_density(), Contents::Empty).unwrap().si();
            prop_assert!(rest.abs() < 1e-6 * pipe.weight_in_air().si(), "{rest} N/m remain");
        }
    }
}
