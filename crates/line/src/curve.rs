use std::f64::consts::{FRAC_PI_2, PI};

use glam::DVec3;

use crate::elliptic::{gauss, second_kind};
use crate::station::{angle_between, attitude, direction, whole_turn};

/// Shape of one part of a line, from its start. Lengths in metres, angles in radians.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Curve {
    /// Constant curvature in the developed profile and constant curvature of the plan line.
    ///
    /// The bore lies on the vertical surface above the plan line. Unrolled, that surface keeps all
    /// lengths, so the measured distance of the profile is that of the bore and both curves have
    /// closed forms.
    Laid { inclination: f64, vertical: f64, azimuth: f64, plan: f64 },
    /// A circular arc in any plane: tangent and inward normal at its start, curvature.
    Circle { tangent: DVec3, normal: DVec3, curvature: f64 },
}

/// A place on a curve, seen from the curve's start.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Place {
    pub displacement: DVec3,
    pub tangent: DVec3,
    pub curvature: DVec3,
    pub inclination: f64,
    pub azimuth: f64,
}

/// Length of the chord over an arc of length `s` and curvature `k`; exact, also for straights.
fn chord(s: f64, k: f64) -> f64 {
    let half = 0.5 * k * s;
    if half.abs() < 1e-4 {
        let h2 = half * half;
        s * (1.0 - h2 / 6.0 * (1.0 - h2 / 20.0))
    } else {
        s * half.sin() / half
    }
}

impl Curve {
    /// A straight with an inclination and an azimuth.
    pub(crate) fn straight(inclination: f64, azimuth: f64) -> Self {
        Curve::Laid { inclination, vertical: 0.0, azimuth, plan: 0.0 }
    }

    /// The place at distance `s` from the start.
    pub(crate) fn place(&self, s: f64) -> Place {
        match *self {
            Curve::Laid { inclination, vertical, azimuth, plan } => {
                let flat = chord(s, vertical);
                let (rise, run) = (inclination + 0.5 * vertical * s).sin_cos();
                let run = flat * run;
                let p = inclination + vertical * s;
                let a = azimuth + plan * run;
                let (sin_m, cos_m) = (azimuth + 0.5 * plan * run).sin_cos();
                let across = chord(run, plan);
                let (sin_p, cos_p) = p.sin_cos();
                let (sin_a, cos_a) = a.sin_cos();
                let sideways = plan * cos_p * cos_p;
                Place {
                    displacement: DVec3::new(across * sin_m, across * cos_m, flat * rise),
                    tangent: DVec3::new(cos_p * sin_a, cos_p * cos_a, sin_p),
                    curvature: DVec3::new(
                        -vertical * sin_p * sin_a + sideways * cos_a,
                        -vertical * sin_p * cos_a - sideways * sin_a,
                        vertical * cos_p,
                    ),
                    inclination: p,
                    azimuth: whole_turn(a),
                }
            }
            Curve::Circle { tangent, normal, curvature } => {
                let (sin_h, cos_h) = (0.5 * curvature * s).sin_cos();
                let (sin_t, cos_t) = (curvature * s).sin_cos();
                let now = tangent * cos_t + normal * sin_t;
                let (inclination, azimuth) = attitude(now);
                Place {
                    displacement: (tangent * cos_h + normal * sin_h) * chord(s, curvature),
                    tangent: now,
                    curvature: (normal * cos_t - tangent * sin_t) * curvature,
                    inclination,
                    azimuth,
                }
            }
        }
    }

    /// Horizontal distance along the plan line over the first `s` of the curve.
    pub(crate) fn chainage(&self, s: f64) -> f64 {
        match *self {
            Curve::Laid { inclination, vertical, .. } => {
                chord(s, vertical) * (inclination + 0.5 * vertical * s).cos()
            }
            Curve::Circle { tangent, normal, curvature } => {
                circle_chainage(tangent, normal, curvature, s)
            }
        }
    }

    /// Magnitude of the curvature at distance `s`.
    pub(crate) fn curvature(&self, s: f64) -> f64 {
        match *self {
            Curve::Laid { inclination, vertical, plan, .. } => {
                let cos_p = (inclination + vertical * s).cos();
                vertical.hypot(plan * cos_p * cos_p)
            }
            Curve::Circle { curvature, .. } => curvature,
        }
    }

    /// Distance from the start at which the curvature is largest, within `length`.
    ///
    /// k² = k_v² + cos⁴P·k_h² grows with cos P: at a level point inside, else at the flatter end.
    pub(crate) fn sharpest(&self, length: f64) -> f64 {
        let Curve::Laid { inclination, vertical, plan, .. } = *self else { return 0.0 };
        if plan == 0.0 || vertical == 0.0 {
            return 0.0;
        }
        let level = -inclination / vertical;
        if level > 0.0 && level < length {
            level
        } else if self.curvature(length) > self.curvature(0.0) {
            length
        } else {
            0.0
        }
    }

    /// Angle through which the tangent turns over the first `length` of the curve, all turning
    /// added up.
    pub(crate) fn turn(&self, length: f64) -> f64 {
        match *self {
            Curve::Circle { curvature, .. } => curvature * length,
            Curve::Laid { vertical, plan: 0.0, .. } => vertical.abs() * length,
            Curve::Laid { vertical: 0.0, .. } => self.curvature(0.0) * length,
            Curve::Laid { vertical, .. } => {
                // Ten-point pieces of 0.2 rad carry the smooth integrand to rounding.
                let pieces = (vertical.abs() * length / 0.2).ceil().clamp(1.0, 100.0);
                let step = length / pieces;
                let mut sum = 0.0;
                let mut from = 0.0;
                while from + 0.5 * step < length {
                    sum += gauss(|s| self.curvature(s), from, from + step);
                    from += step;
                }
                sum
            }
        }
    }

    /// Change of inclination over `length`.
    pub(crate) fn vertical_turn(&self, length: f64) -> f64 {
        match *self {
            Curve::Laid { vertical, .. } => vertical * length,
            Curve::Circle { .. } => self.place(length).inclination - self.place(0.0).inclination,
        }
    }

    /// Change of azimuth over `length`, positive to the right.
    pub(crate) fn plan_turn(&self, length: f64) -> f64 {
        match *self {
            Curve::Laid { plan, .. } => plan * self.chainage(length),
            Curve::Circle { .. } => {
                let turn = self.place(length).azimuth - self.place(0.0).azimuth;
                whole_turn(turn + PI) - PI
            }
        }
    }

    /// The curve seen in a mirror that stands in the vertical plane of an azimuth.
    pub(crate) fn mirrored(&self, azimuth_of_mirror: f64) -> Self {
        match *self {
            Curve::Laid { inclination, vertical, azimuth, plan } => Curve::Laid {
                inclination,
                vertical,
                azimuth: 2.0 * azimuth_of_mirror - azimuth,
                plan: -plan,
            },
            Curve::Circle { tangent, normal, curvature } => Curve::Circle {
                tangent: mirrored(tangent, azimuth_of_mirror),
                normal: mirrored(normal, azimuth_of_mirror),
                curvature,
            },
        }
    }

    /// The curve turned about the vertical, clockwise.
    pub(crate) fn rotated(&self, by: f64) -> Self {
        match *self {
            Curve::Laid { inclination, vertical, azimuth, plan } => {
                Curve::Laid { inclination, vertical, azimuth: azimuth + by, plan }
            }
            Curve::Circle { tangent, normal, curvature } => Curve::Circle {
                tangent: rotated(tangent, by),
                normal: rotated(normal, by),
                curvature,
            },
        }
    }

    /// Whether the curve is straight.
    pub(crate) fn is_straight(&self) -> bool {
        matches!(self, Curve::Laid { vertical: 0.0, plan: 0.0, .. })
    }

    /// Whether the curve is a circular arc in one plane.
    pub(crate) fn is_circular(&self) -> bool {
        match *self {
            Curve::Circle { .. } => true,
            Curve::Laid { inclination, vertical, plan, .. } => {
                (plan == 0.0) != (vertical == 0.0) && (plan == 0.0 || inclination == 0.0)
            }
        }
    }

    /// Radius, where it is the same all along.
    pub(crate) fn constant_radius(&self) -> Option<f64> {
        let constant = match *self {
            Curve::Circle { .. } => true,
            Curve::Laid { vertical, plan, .. } => (plan == 0.0) != (vertical == 0.0),
        };
        constant.then(|| 1.0 / self.curvature(0.0))
    }
}

/// A vector seen in a mirror that stands in the vertical plane of an azimuth.
pub(crate) fn mirrored(v: DVec3, azimuth_of_mirror: f64) -> DVec3 {
    let along = direction(0.0, azimuth_of_mirror);
    let level = DVec3::new(v.x, v.y, 0.0);
    2.0 * level.dot(along) * along - level + DVec3::new(0.0, 0.0, v.z)
}

/// A vector turned about the vertical, clockwise.
pub(crate) fn rotated(v: DVec3, by: f64) -> DVec3 {
    let (sin, cos) = by.sin_cos();
    DVec3::new(v.x * cos + v.y * sin, v.y * cos - v.x * sin, v.z)
}

/// Horizontal length of a circular arc in space.
///
/// ```text
/// t_z(θ) = A cos(θ − φ)
/// x = 1/k · ∫ sqrt(1 − A² cos²(θ − φ)) dθ = 1/k · [ E(ψ | A²) ],   ψ = θ − φ + π/2
/// ```
/// E is the incomplete elliptic integral of the second kind. Where the arc stays clear of the
/// vertical a ten-point quadrature is exact to rounding and does not lose digits on nearly straight
/// arcs, so it is used there.
fn circle_chainage(tangent: DVec3, normal: DVec3, curvature: f64, s: f64) -> f64 {
    let theta = curvature * s;
    let (sin_h, cos_h) = (0.5 * theta).sin_cos();
    let middle = tangent * cos_h + normal * sin_h;
    let from_vertical = middle.x.hypot(middle.y).atan2(middle.z.abs());
    if from_vertical >= 1.5 * theta.abs() {
        let flat = |s: f64| {
            let (sin_t, cos_t) = (curvature * s).sin_cos();
            (tangent.x * cos_t + normal.x * sin_t).hypot(tangent.y * cos_t + normal.y * sin_t)
        };
        return gauss(flat, 0.0, s);
    }
    let phi = normal.z.atan2(tangent.z);
    let m = (tangent.z * tangent.z + normal.z * normal.z).min(1.0);
    let from = FRAC_PI_2 - phi;
    (second_kind(from + theta, m) - second_kind(from, m)) / curvature
}

/// The arc that leaves along one direction and arrives along another after `length`; a straight
/// where they agree.
pub(crate) fn arc_between(from: (f64, f64), to: (f64, f64), length: f64) -> Curve {
    let (t1, t2) = (direction(from.0, from.1), direction(to.0, to.1));
    let dogleg = angle_between(t1, t2);
    let towards = (t2 - t1) - (t2 - t1).dot(t1) * t1;
    let across = towards.length();
    if across == 0.0 || dogleg < 1e-14 {
        return Curve::straight(from.0, from.1);
    }
    let normal = towards / across;
    Curve::Circle { tangent: t1, normal, curvature: dogleg / length }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sharpest_place_of_a_bend_over_a_sag_is_its_level_point() {
        let sag = Curve::Laid { inclination: -0.1, vertical: 0.005, azimuth: 0.0, plan: 0.003 };
        assert_eq!(sag.sharpest(50.0), 20.0);
        approx::assert_relative_eq!(sag.curvature(20.0), 0.005f64.hypot(0.003));
        assert_eq!(sag.sharpest(15.0), 15.0);
        let rising = Curve::Laid { inclination: 0.1, vertical: 0.005, azimuth: 0.0, plan: 0.003 };
        assert_eq!(rising.sharpest(15.0), 0.0);
    }

    #[test]
    fn the_chord_of_a_nearly_straight_arc_keeps_its_digits_across_the_change_of_form() {
        for half in [0.9e-4f64, 0.999e-4, 1.001e-4, 1e-3] {
            // Three terms of the sine series are exact here.
            let h2 = half * half;
            let exact = 1.0 - h2 / 6.0 + h2 * h2 / 120.0;
            approx::assert_relative_eq!(
                chord(2.0 * half, 1.0) / (2.0 * half),
                exact,
                max_relative = 1e-15
            );
        }
    }
}
