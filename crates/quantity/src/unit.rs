//! Units: a symbol, the kind it measures, and the conversion to SI.

use crate::Kind;

/// A unit of measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    symbol: &'static str,
    kind: Kind,
    scale: Scale,
}

/// How a value in the unit becomes SI.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Scale {
    /// SI = value × factor.
    Factor(f64),
    /// SI angle = atan(value / 100): a gradient in percent.
    Gradient,
}

/// Which units a person reads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum System {
    /// Metres, kilonewtons, bar.
    #[default]
    Metric,
    /// Feet, pounds-force, psi.
    Customary,
}

impl Unit {
    const fn new(symbol: &'static str, kind: Kind, factor: f64) -> Self {
        Self { symbol, kind, scale: Scale::Factor(factor) }
    }

    /// The symbol as printed.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        self.symbol
    }

    /// The kind of quantity the unit measures.
    #[must_use]
    pub const fn kind(self) -> Kind {
        self.kind
    }

    /// A value in this unit, in SI.
    #[must_use]
    pub fn to_si(self, value: f64) -> f64 {
        match self.scale {
            Scale::Factor(f) => value * f,
            Scale::Gradient => (value / 100.0).atan(),
        }
    }

    /// An SI value, in this unit.
    #[must_use]
    pub fn from_si(self, si: f64) -> f64 {
        match self.scale {
            Scale::Factor(f) => si / f,
            Scale::Gradient => si.tan() * 100.0,
        }
    }

    /// The unit with this symbol or accepted spelling, for a kind.
    #[must_use]
    pub fn find(symbol: &str, kind: Kind) -> Option<Unit> {
        let wanted = spelling(symbol);
        ALL.iter().copied().find(|u| u.kind == kind && u.symbol == wanted)
    }

    /// The first unit of any kind with this symbol, to say what a wrong unit would have meant.
    #[must_use]
    pub fn find_any(symbol: &str) -> Option<Unit> {
        let wanted = spelling(symbol);
        ALL.iter().copied().find(|u| u.symbol == wanted)
    }

    /// The unit a reader of `system` expects where this one stands.
    #[must_use]
    pub fn in_system(self, system: System) -> Unit {
        match system {
            System::Metric => self,
            System::Customary => self.customary(),
        }
    }

    fn customary(self) -> Unit {
        match self.symbol {
            "m" | "km" => FT,
            "mm" | "cm" => INCH,
            "m2" => FT2,
            "cm2" | "mm2" => IN2,
            "m3" => FT3,
            "m3/m" | "l/m" => GAL_PER_FT,
            "kg" | "t" => LB,
            "kg/m" => LB_PER_FT,
            "kg/m3" | "t/m3" => LB_PER_FT3,
            "N" | "kN" | "MN" => LBF,
            "N/m" | "kN/m" => LBF_PER_FT,
            "N/m3" | "kN/m3" | "MN/m3" => LBF_PER_FT3,
            "Pa/m" | "kPa/m" => PSI_PER_FT,
            "Pa" | "kPa" | "MPa" | "bar" | "mbar" => PSI,
            // A modulus in psi would be a number of eight digits.
            "GPa" => KSI,
            "m/s" => FT_PER_S,
            "m/min" | "m/h" => FT_PER_MIN,
            "l/s" | "l/min" | "m3/s" | "m3/h" => GAL_PER_MIN,
            "l/h" => GAL_PER_H,
            "l" => GAL,
            _ => self,
        }
    }
}

/// Accepted spellings of a symbol that are not the printed one.
fn spelling(symbol: &str) -> &str {
    match symbol {
        "°" | "degree" | "degrees" => "deg",
        "metre" | "metres" | "meter" | "meters" => "m",
        "'" | "feet" | "foot" => "ft",
        "\"" | "inch" | "inches" => "in",
        "lb/gal" | "lbm/gal" => "ppg",
        "pcf" => "lb/ft3",
        "lbs" => "lb",
        "m²" => "m2",
        "m³" => "m3",
        "mm²" => "mm2",
        "cm²" => "cm2",
        "kg/m³" => "kg/m3",
        "t/m³" => "t/m3",
        "g/cm³" => "g/cm3",
        "kN/m³" => "kN/m3",
        "N/m³" => "N/m3",
        "MN/m³" => "MN/m3",
        "N/mm²" | "N/mm2" => "MPa",
        "kN/m²" | "kN/m2" => "kPa",
        "N/m²" | "N/m2" => "Pa",
        "L" | "litre" | "litres" => "l",
        "L/s" => "l/s",
        "L/min" => "l/min",
        "L/h" => "l/h",
        "mg/L" => "mg/l",
        "g/L" => "g/l",
        "kg/L" => "kg/l",
        "kips" => "kip",
        "gpm" => "gal/min",
        "cP" => "mPa·s",
        "mPa s" | "mPa.s" => "mPa·s",
        "Pa s" | "Pa.s" => "Pa·s",
        "m2/s" | "m²/s" => "m2/s",
        "sec" => "s",
        "hour" | "hours" => "h",
        "minutes" => "min",
        "percent" => "%",
        other => other,
    }
}

const FOOT: f64 = 0.3048;
const INCH_M: f64 = 0.0254;
const POUND: f64 = 0.453_592_37;
const POUND_FORCE: f64 = POUND * 9.806_65;
const US_GALLON: f64 = 3.785_411_784e-3;

macro_rules! units {
    ($($(#[$doc:meta])* $name:ident = $symbol:literal, $kind:ident, $factor:expr;)*) => {
        $($(#[$doc])* pub const $name: Unit = Unit::new($symbol, Kind::$kind, $factor);)*
        /// Every unit that a text may use, the SI unit of a kind first.
        pub static ALL: &[Unit] = &[$($name,)* PERCENT_GRADE];
    };
}

/// Gradient in percent: 100 × tangent of the angle.
pub const PERCENT_GRADE: Unit = Unit { symbol: "%", kind: Kind::Angle, scale: Scale::Gradient };

units! {
    /// No unit.
    ONE = "", Ratio, 1.0;
    /// Percent of one.
    PERCENT = "%", Ratio, 0.01;
    /// Metre.
    M = "m", Length, 1.0;
    /// Millimetre.
    MM = "mm", Length, 1e-3;
    /// Centimetre.
    CM = "cm", Length, 1e-2;
    /// Kilometre.
    KM = "km", Length, 1e3;
    /// International foot.
    FT = "ft", Length, FOOT;
    /// Inch.
    INCH = "in", Length, INCH_M;
    /// Radian.
    RAD = "rad", Angle, 1.0;
    /// Degree.
    DEG = "deg", Angle, std::f64::consts::PI / 180.0;
    /// Milliradian.
    MRAD = "mrad", Angle, 1e-3;
    /// Per metre.
    PER_M = "1/m", Curvature, 1.0;
    /// Square metre.
    M2 = "m2", Area, 1.0;
    /// Square centimetre.
    CM2 = "cm2", Area, 1e-4;
    /// Square millimetre.
    MM2 = "mm2", Area, 1e-6;
    /// Square foot.
    FT2 = "ft2", Area, FOOT * FOOT;
    /// Square inch.
    IN2 = "in2", Area, INCH_M * INCH_M;
    /// Cubic metre.
    M3 = "m3", Volume, 1.0;
    /// Litre.
    L = "l", Volume, 1e-3;
    /// US gallon.
    GAL = "gal", Volume, US_GALLON;
    /// Cubic foot.
    FT3 = "ft3", Volume, FOOT * FOOT * FOOT;
    /// Cubic metre per metre.
    M3_PER_M = "m3/m", VolumePerLength, 1.0;
    /// Litre per metre.
    L_PER_M = "l/m", VolumePerLength, 1e-3;
    /// US gallon per foot.
    GAL_PER_FT = "gal/ft", VolumePerLength, US_GALLON / FOOT;
    /// Kilogram.
    KG = "kg", Mass, 1.0;
    /// Tonne.
    T = "t", Mass, 1e3;
    /// Gram.
    G = "g", Mass, 1e-3;
    /// Pound.
    LB = "lb", Mass, POUND;
    /// Kilogram per metre.
    KG_PER_M = "kg/m", MassPerLength, 1.0;
    /// Pound per foot.
    LB_PER_FT = "lb/ft", MassPerLength, POUND / FOOT;
    /// Kilogram per cubic metre.
    KG_PER_M3 = "kg/m3", Density, 1.0;
    /// Tonne per cubic metre.
    T_PER_M3 = "t/m3", Density, 1e3;
    /// Gram per cubic centimetre.
    G_PER_CM3 = "g/cm3", Density, 1e3;
    /// Kilogram per litre.
    KG_PER_L = "kg/l", Density, 1e3;
    /// Gram per litre.
    G_PER_L = "g/l", Density, 1.0;
    /// Milligram per litre.
    MG_PER_L = "mg/l", Density, 1e-3;
    /// Pound per US gallon.
    PPG = "ppg", Density, POUND / US_GALLON;
    /// Pound per cubic foot.
    LB_PER_FT3 = "lb/ft3", Density, POUND / (FOOT * FOOT * FOOT);
    /// Newton.
    N = "N", Force, 1.0;
    /// Kilonewton.
    KN = "kN", Force, 1e3;
    /// Meganewton.
    MN = "MN", Force, 1e6;
    /// Pound-force.
    LBF = "lbf", Force, POUND_FORCE;
    /// Thousand pounds-force.
    KIP = "kip", Force, 1e3 * POUND_FORCE;
    /// Tonne-force.
    TF = "tf", Force, 9_806.65;
    /// Newton per metre.
    N_PER_M = "N/m", ForcePerLength, 1.0;
    /// Kilonewton per metre.
    KN_PER_M = "kN/m", ForcePerLength, 1e3;
    /// Pound-force per foot.
    LBF_PER_FT = "lbf/ft", ForcePerLength, POUND_FORCE / FOOT;
    /// Pound-force per inch.
    LBF_PER_IN = "lbf/in", ForcePerLength, POUND_FORCE / INCH_M;
    /// Newton per cubic metre.
    N_PER_M3 = "N/m3", UnitWeight, 1.0;
    /// Kilonewton per cubic metre.
    KN_PER_M3 = "kN/m3", UnitWeight, 1e3;
    /// Meganewton per cubic metre.
    MN_PER_M3 = "MN/m3", UnitWeight, 1e6;
    /// Pascal per metre.
    PA_PER_M = "Pa/m", UnitWeight, 1.0;
    /// Kilopascal per metre.
    KPA_PER_M = "kPa/m", UnitWeight, 1e3;
    /// Pound-force per cubic foot.
    LBF_PER_FT3 = "lbf/ft3", UnitWeight, POUND_FORCE / (FOOT * FOOT * FOOT);
    /// Pound-force per square inch, per foot.
    PSI_PER_FT = "psi/ft", UnitWeight, POUND_FORCE / (INCH_M * INCH_M * FOOT);
    /// Pascal.
    PA = "Pa", Pressure, 1.0;
    /// Kilopascal.
    KPA = "kPa", Pressure, 1e3;
    /// Megapascal.
    MPA = "MPa", Pressure, 1e6;
    /// Gigapascal.
    GPA = "GPa", Pressure, 1e9;
    /// Bar.
    BAR = "bar", Pressure, 1e5;
    /// Millibar.
    MBAR = "mbar", Pressure, 1e2;
    /// Pound-force per square inch.
    PSI = "psi", Pressure, POUND_FORCE / (INCH_M * INCH_M);
    /// Thousand pounds-force per square inch.
    KSI = "ksi", Pressure, 1e3 * POUND_FORCE / (INCH_M * INCH_M);
    /// Pound-force per square foot.
    PSF = "psf", Pressure, POUND_FORCE / (FOOT * FOOT);
    /// Pound-force per hundred square feet.
    LBF_PER_100FT2 = "lbf/100ft2", Pressure, POUND_FORCE / (100.0 * FOOT * FOOT);
    /// Newton square metre.
    N_M2 = "N·m2", BendingStiffness, 1.0;
    /// Second.
    S = "s", Time, 1.0;
    /// Minute.
    MIN = "min", Time, 60.0;
    /// Hour.
    H = "h", Time, 3600.0;
    /// Day.
    D = "d", Time, 86_400.0;
    /// Metre per second.
    M_PER_S = "m/s", Velocity, 1.0;
    /// Metre per minute.
    M_PER_MIN = "m/min", Velocity, 1.0 / 60.0;
    /// Metre per hour.
    M_PER_H = "m/h", Velocity, 1.0 / 3600.0;
    /// Foot per second.
    FT_PER_S = "ft/s", Velocity, FOOT;
    /// Foot per minute.
    FT_PER_MIN = "ft/min", Velocity, FOOT / 60.0;
    /// Cubic metre per second.
    M3_PER_S = "m3/s", Flow, 1.0;
    /// Litre per second.
    L_PER_S = "l/s", Flow, 1e-3;
    /// Litre per minute.
    L_PER_MIN = "l/min", Flow, 1e-3 / 60.0;
    /// Litre per hour.
    L_PER_H = "l/h", Flow, 1e-3 / 3600.0;
    /// Cubic metre per hour.
    M3_PER_H = "m3/h", Flow, 1.0 / 3600.0;
    /// US gallon per minute.
    GAL_PER_MIN = "gal/min", Flow, US_GALLON / 60.0;
    /// US gallon per hour.
    GAL_PER_H = "gal/h", Flow, US_GALLON / 3600.0;
    /// Pascal second.
    PA_S = "Pa·s", Viscosity, 1.0;
    /// Millipascal second, the centipoise.
    MPA_S = "mPa·s", Viscosity, 1e-3;
    /// Square metre per second.
    M2_PER_S = "m2/s", KinematicViscosity, 1.0;
    /// Square millimetre per second, the centistokes.
    MM2_PER_S = "mm2/s", KinematicViscosity, 1e-6;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_customary_reader_meets_no_metric_unit_that_has_a_customary_one() {
        // Angles, times and numbers are the same for both; viscosity and concentration are metric in both trades.
        let both = [
            Kind::Ratio,
            Kind::Angle,
            Kind::Time,
            Kind::Viscosity,
            Kind::KinematicViscosity,
            Kind::Curvature,
            Kind::BendingStiffness,
        ];
        let kept = ["g", "g/cm3", "kg/l", "g/l", "mg/l"];
        let metric: Vec<Unit> = ALL.iter().copied().filter(|u| is_metric(*u)).collect();
        assert!(metric.len() > 30, "{}", metric.len());
        for unit in metric {
            let shown = unit.in_system(System::Customary);
            assert_eq!(shown.kind(), unit.kind(), "{}", unit.symbol());
            let stays = both.contains(&unit.kind()) || kept.contains(&unit.symbol());
            assert_eq!(shown == unit, stays, "{} is shown as {}", unit.symbol(), shown.symbol());
            assert_eq!(unit.in_system(System::Metric), unit);
        }
    }

    fn is_metric(unit: Unit) -> bool {
        let customary = ["ft", "in", "gal", "lb", "ppg", "lbf", "kip", "psi", "ksi", "psf", "tf"];
        !customary.iter().any(|c| unit.symbol().starts_with(c))
    }

    #[test]
    fn customary_values_are_those_of_published_conversions() {
        let of =
            |unit: Unit, value: f64| unit.in_system(System::Customary).from_si(unit.to_si(value));
        // Exact by the definitions of inch, pound and US gallon; the printed digits are those of common tables.
        approx::assert_relative_eq!(of(L_PER_MIN, 1.0), 0.264_172, max_relative = 1e-5);
        approx::assert_relative_eq!(of(L_PER_H, 1.0), 0.264_172, max_relative = 1e-5);
        approx::assert_relative_eq!(of(M_PER_MIN, 1.0), 3.280_84, max_relative = 1e-5);
        approx::assert_relative_eq!(of(CM2, 1.0), 0.155, max_relative = 1e-4);
        approx::assert_relative_eq!(of(MM2, 645.16), 1.0, max_relative = 1e-12);
        approx::assert_relative_eq!(of(KM, 1.0), 3_280.84, max_relative = 1e-5);
        approx::assert_relative_eq!(of(M3_PER_M, 1.0), 80.519_6, max_relative = 1e-5);
        approx::assert_relative_eq!(of(MPA, 1.0), 145.038, max_relative = 1e-5);
        approx::assert_relative_eq!(of(GPA, 170.0), 24_656.4, max_relative = 1e-5);
        approx::assert_relative_eq!(of(KPA_PER_M, 9.806_65), 0.433_5, max_relative = 1e-3);
    }
}
