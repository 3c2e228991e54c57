//! The line on a map: GeoJSON (RFC 7946), WGS 84 longitude and latitude, for display only.
//!
//! Positions have no height: levels count from the datum of the design, not from the ellipsoid; they stand in properties.

use project::{Design, Project, Renewal};
use serde_json::{Value, json};

use super::grid::Grid;
use super::plan::Places;
use crate::Subject;

const NO_COORDINATES: &str =
    "the design has no [coordinates]: without a grid nothing lies on a map";

pub(super) fn json(subject: &Subject<'_>) -> Result<Vec<u8>, String> {
    let places = Places::new(subject.design);
    let epsg = places.epsg().ok_or(NO_COORDINATES)?;
    let map = Map { grid: Grid::find(epsg)?, places };
    let mut features = vec![map.axis(subject)?];
    match subject.design {
        Design::Crossing(project) => map.crossing(project, &mut features)?,
        Design::Renewal(renewal) => map.renewal(renewal, &mut features)?,
    }
    let whole = json!({ "type": "FeatureCollection", "features": features });
    let mut bytes = serde_json::to_vec_pretty(&whole).map_err(|e| e.to_string())?;
    bytes.push(b'\n');
    Ok(bytes)
}

struct Map<'d> {
    grid: Grid,
    places: Places<'d>,
}

impl Map<'_> {
    fn position(&self, chainage: f64, offset: f64) -> Result<Value, String> {
        let place = self.places.at(chainage, offset);
        let (e, n) = place.ok_or_else(|| format!("chainage {chainage} m has no coordinates"))?;
        self.of(e, n)
    }

    fn of(&self, east: f64, north: f64) -> Result<Value, String> {
        let (lon, lat) = self.grid.lon_lat(east, north)?;
        // A thousand-millionth of a degree is at most 0.1 mm.
        let rounded = |v: f64| (v * 1e9).round() / 1e9 + 0.0;
        Ok(json!([rounded(lon), rounded(lat)]))
    }

    fn axis(&self, subject: &Subject<'_>) -> Result<Value, String> {
        let corners = self.places.axis();
        let line: Result<Vec<Value>, String> =
            corners.iter().map(|(_, e, n)| self.of(*e, *n)).collect();
        let line = line?;
        let lon = |v: &Value| v.get(0).and_then(Value::as_f64).unwrap_or_default();
        let crosses =
            line.windows(2).any(|w| matches!(w, [a, b] if (lon(a) - lon(b)).abs() > 180.0));
        if crosses {
            return Err(
                "the line crosses the meridian of 180 deg, at which a map is cut".to_owned()
            );
        }
        let mut properties = json!({
            "kind": "axis",
            "name": subject.design.name(),
            "technique": subject.design.technique().word(),
            "chainages_m": corners.iter().map(|c| c.0).collect::<Vec<_>>(),
            "use": "for display only: longitude and latitude may be off by what the datum shift leaves, set out by \
                    easting and northing",
            "grid": self.grid.title(),
            "transformation": self.grid.way(),
            "vertical_datum": self.places.datum().unwrap_or("datum of the design"),
            "heights": "positions have none: levels are properties, above the datum of the design",
        });
        let metre = (self.grid.metres() - 1.0).abs() < 1e-12;
        if let (Some(map), false) = (properties.as_object_mut(), metre) {
            let text = "the grid counts in feet; coordinates of the design in feet are read as international feet";
            map.insert("unit_of_grid".to_owned(), json!(text));
        }
        Ok(json!({
            "type": "Feature",
            "geometry": { "type": "LineString", "coordinates": line },
            "properties": properties,
        }))
    }

    fn point(&self, chainage: f64, offset: f64, properties: Value) -> Result<Value, String> {
        let position = self.position(chainage, offset)?;
        Ok(json!({
            "type": "Feature",
            "geometry": { "type": "Point", "coordinates": position },
            "properties": properties,
        }))
    }

    /// A stretch of the axis.
    fn stretch(&self, from: f64, to: f64, properties: Value) -> Result<Value, String> {
        let inner = self.places.axis().into_iter().map(|c| c.0).filter(|x| *x > from && *x < to);
        let all = std::iter::once(from).chain(inner).chain([to]);
        let line: Result<Vec<Value>, String> = all.map(|x| self.position(x, 0.0)).collect();
        Ok(json!({
            "type": "Feature",
            "geometry": { "type": "LineString", "coordinates": line? },
            "properties": properties,
        }))
    }

    fn crossing(&self, project: &Project, out: &mut Vec<Value>) -> Result<(), String> {
        let line = &project.line;
        let (run, length) = (line.run().si(), line.length().si());
        let mut ends = vec![("entry point", 0.0)];
        ends.extend(line.breakpoints().iter().map(|md| ("tangent point", md.si())));
        ends.retain(|(kind, md)| *kind == "entry point" || *md < length);
        ends.push(("exit point", length));
        for (kind, md) in ends {
            let s = line.sample(md);
            let properties = json!({
                "kind": kind, "md_m": md, "chainage_m": s.chainage.si(), "level_m": s.level.si(),
            });
            out.push(self.point(s.chainage.si(), 0.0, properties)?);
        }
        for o in &project.site.obstacles {
            let properties = |from: f64, to: f64| {
                json!({
                    "kind": "obstacle", "name": o.name, "what": o.kind.word(),
                    "from_m": from, "to_m": to,
                })
            };
            match o.shape {
                ground::Shape::Above { from, to, .. } => {
                    let (a, b) = (from.si().max(0.0), to.si().min(run));
                    if a < b {
                        out.push(self.stretch(a, b, properties(from.si(), to.si()))?);
                    }
                }
                ground::Shape::Round { at, .. } => {
                    out.push(self.point(at.si(), 0.0, properties(at.si(), at.si()))?);
                }
            }
        }
        for b in project.strata.iter().flat_map(|s| s.borings()) {
            let properties = json!({
                "kind": "boring", "name": b.name, "chainage_m": b.chainage.si(),
                "offset_m": b.offset.si(), "level_m": b.level.si(), "end_level_m": b.end().si(),
            });
            out.push(self.point(b.chainage.si(), b.offset.si(), properties)?);
        }
        Ok(())
    }

    fn renewal(&self, renewal: &Renewal, out: &mut Vec<Value>) -> Result<(), String> {
        let level =
            |x: quantity::Length| renewal.host.axis.level_at(x).ok().map(quantity::Length::si);
        for run in &renewal.runs {
            for (kind, at) in [("launch pit", run.launch), ("machine pit", run.machine)] {
                let properties = json!({
                    "kind": kind, "run": run.name, "chainage_m": at.si(), "level_m": level(at),
                });
                out.push(self.point(at.si(), 0.0, properties)?);
            }
        }
        for b in &renewal.host.bends {
            let properties = json!({
                "kind": "bend", "chainage_m": b.at.si(), "angle_deg": b.angle.si().to_degrees(),
                "radius_m": b.radius.map(quantity::Length::si),
            });
            out.push(self.point(b.at.si(), 0.0, properties)?);
        }
        for f in &renewal.host.features {
            let properties = json!({
                "kind": "feature", "what": f.kind, "action": f.action, "note": f.note, "chainage_m": f.at.si(),
            });
            out.push(match f.to {
                Some(to) => self.stretch(f.at.si(), to.si(), properties)?,
                None => self.point(f.at.si(), 0.0, properties)?,
            });
        }
        for s in &renewal.host.services {
            let properties = json!({ "kind": "service", "name": s.name, "chainage_m": s.at.si() });
            out.push(self.point(s.at.si(), 0.0, properties)?);
        }
        for n in &renewal.street.neighbours {
            // Beside which side of the main a neighbour runs is not known.
            if let project::NeighbourPlace::Crossing { at } = n.place
                && at >= renewal.host.axis.from()
                && at <= renewal.host.axis.to()
            {
                let properties = json!({
                    "kind": "neighbour", "name": n.name, "what": n.kind,
                    "chainage_m": at.si(), "level_m": n.level.si(),
                });
                out.push(self.point(at.si(), 0.0, properties)?);
            }
        }
        Ok(())
    }
}
