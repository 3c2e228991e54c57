use std::fmt;

use quantity::{Density, Length, Mass, MassPerLength, Pressure, show, unit};

use crate::error::{not_negative, positive, within};
use crate::{PipeError, Valued};

/// Which standard a pipe follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Standard {
    /// EN 545 / ISO 2531.
    En545,
    /// ANSI/AWWA C151.
    AwwaC151,
    /// A data sheet of the user.
    Own,
}

impl Standard {
    /// Name as printed.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Standard::En545 => "EN 545",
            Standard::AwwaC151 => "AWWA C151",
            Standard::Own => "own data",
        }
    }
}

impl fmt::Display for Standard {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// Nominal size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Nominal {
    /// DN of EN 545, a number near the bore in millimetres.
    Dn(u32),
    /// Size of AWWA C151 in inches.
    Inches(u32),
    /// Name on the user's data sheet.
    Named(String),
}

impl fmt::Display for Nominal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Nominal::Dn(dn) => write!(f, "DN {dn}"),
            Nominal::Inches(size) => write!(f, "{size} in"),
            Nominal::Named(name) => f.write_str(name),
        }
    }
}

/// A lining or a coating; thickness zero where there is none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    /// Thickness.
    pub thickness: Length,
    /// Density.
    pub density: Density,
}

impl Layer {
    /// No layer at all.
    pub const NONE: Self = Self { thickness: Length::ZERO, density: Density::ZERO };
}

/// What is known about a pipe, each value with its source; [`Pipe::new`] checks it.
#[derive(Debug, Clone, PartialEq)]
pub struct PipeData {
    /// Standard that the pipe follows.
    pub standard: Standard,
    /// Nominal size.
    pub nominal: Nominal,
    /// Class label: `K9`, `C40`, `350 psi`.
    pub class: String,
    /// Outside diameter of the iron barrel.
    pub outside_diameter: Valued<Length>,
    /// Nominal wall of the iron.
    pub wall_nominal: Valued<Length>,
    /// Least wall of the iron that the tolerances allow.
    pub wall_min: Valued<Length>,
    /// Lining inside the iron.
    pub lining: Valued<Layer>,
    /// Coating on the barrel.
    pub coating: Valued<Layer>,
    /// Laying length: what one joined pipe adds to the string.
    pub laying_length: Valued<Length>,
    /// Mass of the socket beyond the barrel over the laying length.
    pub socket_mass: Valued<Mass>,
    /// Mass per length as a data sheet states it, with lining, coating and sockets; replaces the one computed from the
    /// dimensions.
    pub stated_mass: Option<Valued<MassPerLength>>,
    /// Outside diameter of the socket, without protection.
    pub socket_outside_diameter: Option<Valued<Length>>,
    /// What sleeve and cone add to the socket's diameter.
    pub joint_protection: Valued<Length>,
    /// Modulus of elasticity of the iron.
    pub modulus: Valued<Pressure>,
    /// Density of the iron.
    pub iron_density: Valued<Density>,
    /// 0.2 % proof strength of the iron.
    pub proof_strength: Valued<Pressure>,
    /// Pressure that the class stands for, where the class names one.
    pub class_pressure: Option<Valued<Pressure>>,
}

/// A pipe whose data are consistent. Immutable: change a copy of its [`PipeData`] and check again.
#[derive(Debug, Clone, PartialEq)]
pub struct Pipe {
    data: PipeData,
}

impl Pipe {
    /// Checks the data of a pipe.
    ///
    /// # Errors
    /// [`PipeError::OutOfRange`] for the first value that is not finite or that does not go with
    /// the others: a wall at or above half the diameter, a least wall above the nominal one, a
    /// lining that fills the bore, a socket narrower than the barrel.
    pub fn new(data: PipeData) -> Result<Self, PipeError> {
        let d = positive("outside diameter", data.outside_diameter.value.si(), unit::MM)?;
        let e = positive("nominal wall", data.wall_nominal.value.si(), unit::MM)?;
        within("nominal wall", e, unit::MM, e < d / 2.0, || {
            format!("less than half the outside diameter ({})", show(d / 2.0, unit::MM))
        })?;
        let least = positive("minimum wall", data.wall_min.value.si(), unit::MM)?;
        within("minimum wall", least, unit::MM, least <= e, || {
            format!("at most the nominal wall ({})", show(e, unit::MM))
        })?;
        let lining = not_negative("lining thickness", data.lining.value.thickness.si(), unit::MM)?;
        within("lining thickness", lining, unit::MM, lining < d / 2.0 - e, || {
            format!("less than half the iron bore ({})", show(d / 2.0 - e, unit::MM))
        })?;
        not_negative("lining density", data.lining.value.density.si(), unit::KG_PER_M3)?;
        let coating =
            not_negative("coating thickness", data.coating.value.thickness.si(), unit::MM)?;
        not_negative("coating density", data.coating.value.density.si(), unit::KG_PER_M3)?;
        positive("laying length", data.laying_length.value.si(), unit::M)?;
        not_negative("socket mass", data.socket_mass.value.si(), unit::KG)?;
        if let Some(socket) = &data.socket_outside_diameter {
            let s = positive("socket outside diameter", socket.value.si(), unit::MM)?;
            let barrel = d + 2.0 * coating;
            within("socket outside diameter", s, unit::MM, s >= barrel, || {
                format!("at least the coated barrel ({})", show(barrel, unit::MM))
            })?;
        }
        not_negative("joint protection", data.joint_protection.value.si(), unit::MM)?;
        positive("modulus of elasticity", data.modulus.value.si(), unit::GPA)?;
        positive("iron density", data.iron_density.value.si(), unit::KG_PER_M3)?;
        positive("proof strength", data.proof_strength.value.si(), unit::MPA)?;
        if let Some(mass) = &data.stated_mass {
            positive("mass per length", mass.value.si(), unit::KG_PER_M)?;
        }
        if let Some(p) = &data.class_pressure {
            positive("class pressure", p.value.si(), unit::BAR)?;
        }
        Ok(Self { data })
    }

    /// Everything that is known about the pipe, with sources.
    #[must_use]
    pub const fn data(&self) -> &PipeData {
        &self.data
    }

    /// The data of the pipe, to be changed and checked again.
    #[must_use]
    pub fn into_data(self) -> PipeData {
        self.data
    }

    /// Standard that the pipe follows.
    #[must_use]
    pub const fn standard(&self) -> Standard {
        self.data.standard
    }

    /// Nominal size.
    #[must_use]
    pub const fn nominal(&self) -> &Nominal {
        &self.data.nominal
    }

    /// Class label.
    #[must_use]
    pub fn class(&self) -> &str {
        &self.data.class
    }

    /// Outside diameter of the iron barrel.
    #[must_use]
    pub const fn outside_diameter(&self) -> Length {
        self.data.outside_diameter.value
    }

    /// Nominal wall of the iron.
    #[must_use]
    pub const fn wall_nominal(&self) -> Length {
        self.data.wall_nominal.value
    }

    /// Least wall of the iron.
    #[must_use]
    pub const fn wall_min(&self) -> Length {
        self.data.wall_min.value
    }

    /// Lining.
    #[must_use]
    pub const fn lining(&self) -> Layer {
        self.data.lining.value
    }

    /// Coating of the barrel.
    #[must_use]
    pub const fn coating(&self) -> Layer {
        self.data.coating.value
    }

    /// Laying length.
    #[must_use]
    pub const fn laying_length(&self) -> Length {
        self.data.laying_length.value
    }

    /// Mass of the socket beyond the barrel.
    #[must_use]
    pub const fn socket_mass(&self) -> Mass {
        self.data.socket_mass.value
    }

    /// Outside diameter of the socket without protection, where it is known.
    #[must_use]
    pub fn socket_outside_diameter(&self) -> Option<Length> {
        self.data.socket_outside_diameter.as_ref().map(|s| s.value)
    }

    /// Modulus of elasticity of the iron.
    #[must_use]
    pub const fn modulus(&self) -> Pressure {
        self.data.modulus.value
    }

    /// 0.2 % proof strength of the iron.
    #[must_use]
    pub const fn proof_strength(&self) -> Pressure {
        self.data.proof_strength.value
    }

    /// Bore of the iron, without lining, at the nominal wall.
    #[must_use]
    pub fn iron_bore(&self) -> Length {
        self.outside_diameter() - 2.0 * self.wall_nominal()
    }

    /// Bore inside the lining, at nominal thicknesses.
    #[must_use]
    pub fn bore(&self) -> Length {
        self.iron_bore() - 2.0 * self.lining().thickness
    }

    /// Diameter of the barrel over its coating.
    #[must_use]
    pub fn barrel_diameter(&self) -> Length {
        self.outside_diameter() + 2.0 * self.coating().thickness
    }

    /// Largest diameter of the string: socket with sleeve and cone; `None` while the socket's
    /// diameter is unknown.
    #[must_use]
    pub fn largest_diameter(&self) -> Option<Length> {
        self.socket_outside_diameter().map(|s| s + self.data.joint_protection.value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{CoatingKind, coating, en545_pipe};

    fn data() -> PipeData {
        en545_pipe(400, "K9").expect("valid").into_data()
    }

    #[test]
    fn diameters_follow_from_walls_and_layers() {
        let mut d = data();
        d.coating = coating(CoatingKind::FibreMortar);
        let pipe = Pipe::new(d).expect("valid");
        let mm = |l: Length| (l.to_millimetres() * 10.0).round() / 10.0;
        assert_eq!(mm(pipe.iron_bore()), 412.8);
        assert_eq!(mm(pipe.bore()), 402.8);
        assert_eq!(mm(pipe.barrel_diameter()), 439.0);
        assert_eq!(pipe.largest_diameter().map(mm), Some(542.6));
    }

    #[test]
    fn data_that_do_not_go_together_are_refused_by_name() {
        type Change = fn(&mut PipeData);
        let cases: [(&str, Change); 9] = [
            ("outside diameter", |d| d.outside_diameter.value = Length::ZERO),
            ("nominal wall", |d| d.wall_nominal.value = Length::millimetres(300.0)),
            ("minimum wall", |d| d.wall_min.value = Length::millimetres(9.0)),
            ("lining thickness", |d| d.lining.value.thickness = Length::millimetres(210.0)),
            ("coating density", |d| d.coating.value.density = Density::from_si(f64::NAN)),
            ("laying length", |d| d.laying_length.value = Length::from_si(-6.0)),
            ("socket outside diameter", |d| {
                d.socket_outside_diameter = Some(Valued::given(Length::millimetres(400.0)));
            }),
            ("proof strength", |d| d.proof_strength.value = Pressure::ZERO),
            ("modulus of elasticity", |d| d.modulus.value = Pressure::from_si(f64::INFINITY)),
        ];
        for (name, change) in cases {
            let mut d = data();
            change(&mut d);
            let e = Pipe::new(d).expect_err(name);
            assert!(e.to_string().starts_with(&format!("{name} must be")), "{name}: {e}");
            assert_eq!(e.code(), "out_of_range");
        }
    }

    #[test]
    fn a_pipe_without_known_socket_has_no_largest_diameter() {
        let mut d = data();
        d.socket_outside_diameter = None;
        assert_eq!(Pipe::new(d).expect("valid").largest_diameter(), None);
    }
}
