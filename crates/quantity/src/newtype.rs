use serde::Serialize;

use crate::show;
use crate::unit::{self, Unit};

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $default:ident { $($(#[$udoc:meta])* $ctor:ident, $getter:ident, $unit:ident;)* }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default, Serialize)]
        #[serde(transparent)]
        pub struct $name(f64);

        impl $name {
            /// Zero.
            pub const ZERO: Self = Self(0.0);

            /// From a number in the SI unit.
            #[must_use]
            pub const fn from_si(si: f64) -> Self { Self(si) }

            /// The number in the SI unit.
            #[must_use]
            pub const fn si(self) -> f64 { self.0 }

            /// From a number in a unit of the same kind.
            #[must_use]
            pub fn from_unit(value: f64, unit: Unit) -> Self {
                debug_assert_eq!(unit.kind(), unit::$default.kind(), "unit of another kind");
                Self(unit.to_si(value))
            }

            $($(#[$udoc])*
            #[must_use]
            pub fn $ctor(value: f64) -> Self { Self(unit::$unit.to_si(value)) }
            $(#[$udoc])*
            #[must_use]
            pub fn $getter(self) -> f64 { unit::$unit.from_si(self.0) })*

            /// Magnitude.
            #[must_use]
            pub fn abs(self) -> Self { Self(self.0.abs()) }
            /// The larger of two.
            #[must_use]
            pub fn max(self, other: Self) -> Self { Self(self.0.max(other.0)) }
            /// The smaller of two.
            #[must_use]
            pub fn min(self, other: Self) -> Self { Self(self.0.min(other.0)) }
            /// Whether the number is neither infinite nor NaN.
            #[must_use]
            pub fn is_finite(self) -> bool { self.0.is_finite() }
        }

        impl std::ops::Add for $name { type Output = Self; fn add(self, o: Self) -> Self { Self(self.0 + o.0) } }
        impl std::ops::Sub for $name { type Output = Self; fn sub(self, o: Self) -> Self { Self(self.0 - o.0) } }
        impl std::ops::Neg for $name { type Output = Self; fn neg(self) -> Self { Self(-self.0) } }
        impl std::ops::Mul<f64> for $name { type Output = Self; fn mul(self, k: f64) -> Self { Self(self.0 * k) } }
        impl std::ops::Mul<$name> for f64 { type Output = $name; fn mul(self, q: $name) -> $name { $name(self * q.0) } }
        impl std::ops::Div<f64> for $name { type Output = Self; fn div(self, k: f64) -> Self { Self(self.0 / k) } }
        impl std::ops::Div for $name { type Output = f64; fn div(self, o: Self) -> f64 { self.0 / o.0 } }
        impl std::ops::AddAssign for $name { fn add_assign(&mut self, o: Self) { self.0 += o.0; } }
        impl std::iter::Sum for $name { fn sum<I: Iterator<Item = Self>>(it: I) -> Self { Self(it.map(|q| q.0).sum()) } }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(&show(self.0, unit::$default))
            }
        }
    };
}

quantity! {
    /// A length.
    Length, M {
        /// In metres.
        metres, to_metres, M;
        /// In millimetres.
        millimetres, to_millimetres, MM;
        /// In international feet.
        feet, to_feet, FT;
        /// In inches.
        inches, to_inches, INCH;
    }
}
quantity! {
    /// An angle.
    Angle, DEG {
        /// In radians.
        radians, to_radians, RAD;
        /// In degrees.
        degrees, to_degrees, DEG;
        /// As a gradient in percent.
        percent_grade, to_percent_grade, PERCENT_GRADE;
    }
}
quantity! {
    /// An area.
    Area, M2 {
        /// In square metres.
        square_metres, to_square_metres, M2;
    }
}
quantity! {
    /// A volume.
    Volume, M3 {
        /// In cubic metres.
        cubic_metres, to_cubic_metres, M3;
        /// In litres.
        litres, to_litres, L;
    }
}
quantity! {
    /// A mass.
    Mass, KG {
        /// In kilograms.
        kilograms, to_kilograms, KG;
    }
}
quantity! {
    /// A mass per length.
    MassPerLength, KG_PER_M {
        /// In kilograms per metre.
        kilograms_per_metre, to_kilograms_per_metre, KG_PER_M;
    }
}
quantity! {
    /// A density or a mass concentration.
    Density, KG_PER_M3 {
        /// In kilograms per cubic metre.
        kilograms_per_cubic_metre, to_kilograms_per_cubic_metre, KG_PER_M3;
    }
}
quantity! {
    /// A force.
    Force, KN {
        /// In newtons.
        newtons, to_newtons, N;
        /// In kilonewtons.
        kilonewtons, to_kilonewtons, KN;
        /// In pounds-force.
        pounds_force, to_pounds_force, LBF;
    }
}
quantity! {
    /// A force per length.
    ForcePerLength, N_PER_M {
        /// In newtons per metre.
        newtons_per_metre, to_newtons_per_metre, N_PER_M;
    }
}
quantity! {
    /// A force per volume: unit weight, subgrade modulus, pressure gradient.
    UnitWeight, KN_PER_M3 {
        /// In newtons per cubic metre.
        newtons_per_cubic_metre, to_newtons_per_cubic_metre, N_PER_M3;
        /// In kilonewtons per cubic metre.
        kilonewtons_per_cubic_metre, to_kilonewtons_per_cubic_metre, KN_PER_M3;
    }
}
quantity! {
    /// A pressure, stress, strength or modulus of elasticity.
    Pressure, KPA {
        /// In pascals.
        pascals, to_pascals, PA;
        /// In kilopascals.
        kilopascals, to_kilopascals, KPA;
        /// In megapascals.
        megapascals, to_megapascals, MPA;
        /// In bar.
        bar, to_bar, BAR;
        /// In pounds-force per square inch.
        psi, to_psi, PSI;
    }
}
quantity! {
    /// A time.
    Time, S {
        /// In seconds.
        seconds, to_seconds, S;
        /// In hours.
        hours, to_hours, H;
    }
}
quantity! {
    /// A velocity.
    Velocity, M_PER_S {
        /// In metres per second.
        metres_per_second, to_metres_per_second, M_PER_S;
    }
}
quantity! {
    /// A volume flow.
    Flow, L_PER_S {
        /// In cubic metres per second.
        cubic_metres_per_second, to_cubic_metres_per_second, M3_PER_S;
        /// In litres per second.
        litres_per_second, to_litres_per_second, L_PER_S;
    }
}
quantity! {
    /// A dynamic viscosity.
    Viscosity, MPA_S {
        /// In pascal seconds.
        pascal_seconds, to_pascal_seconds, PA_S;
    }
}
quantity! {
    /// A kinematic viscosity.
    KinematicViscosity, M2_PER_S {
        /// In square metres per second.
        square_metres_per_second, to_square_metres_per_second, M2_PER_S;
    }
}
