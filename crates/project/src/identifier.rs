use std::collections::{BTreeMap, BTreeSet};

use ground::Obstacle;

/// Ids of obstacles for the ids of their checks: lower-case letters, digits and hyphens, unique, in
/// the given order.
///
/// Letters outside ASCII become hyphens; a name without any other letter becomes `obstacle`. Ids
/// that would be equal get a number from 2, so that they stay the same as long as the obstacles
/// before them do.
#[must_use]
pub fn obstacle_ids(obstacles: &[Obstacle]) -> Vec<String> {
    ids_of_names(obstacles.iter().map(|o| o.name.as_str()), "obstacle")
}

/// Ids made of names as [`obstacle_ids`] makes them; a name without any letter becomes `fallback`.
#[must_use]
pub fn ids_of_names<'a>(names: impl Iterator<Item = &'a str>, fallback: &str) -> Vec<String> {
    let mut taken = BTreeSet::new();
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    names
        .map(|name| {
            let base = identifier(name, fallback);
            let count = counts.entry(base.clone()).or_insert(0);
            loop {
                *count += 1;
                let id = if *count == 1 { base.clone() } else { format!("{base}-{count}") };
                if taken.insert(id.clone()) {
                    return id;
                }
            }
        })
        .collect()
}

fn identifier(name: &str, fallback: &str) -> String {
    let mut out = String::new();
    for c in name.chars() {
        if c.is_ascii_alphanumeric() {
            out.push(c.to_ascii_lowercase());
        } else if !out.is_empty() && !out.ends_with('-') {
            out.push('-');
        }
    }
    let trimmed = out.trim_end_matches('-');
    if trimmed.is_empty() { fallback.to_owned() } else { trimmed.to_owned() }
}

#[cfg(test)]
mod tests {
    use ground::{ObstacleKind, Shape};
    use quantity::Length;

    use super::*;

    fn ids(names: &[&str]) -> Vec<String> {
        let shape = Shape::Round { at: Length::ZERO, level: Length::ZERO, diameter: Length::ZERO };
        let obstacles: Vec<_> = names
            .iter()
            .map(|n| Obstacle {
                name: (*n).to_owned(),
                kind: ObstacleKind::Other,
                shape,
                clearance: None,
                settlement_limit: None,
                heave_limit: None,
            })
            .collect();
        obstacle_ids(&obstacles)
    }

    #[test]
    fn ids_hold_letters_digits_and_hyphens_only() {
        assert_eq!(
            ids(&["Flood bank (north)", "Gas 4\"", "ÜÖ", "été 2"]),
            ["flood-bank-north", "gas-4", "obstacle", "t-2"]
        );
    }

    #[test]
    fn equal_ids_are_numbered_without_meeting_others() {
        assert_eq!(
            ids(&["lane", "Lane!", "lane 2", "lane?"]),
            ["lane", "lane-2", "lane-2-2", "lane-3"]
        );
    }
}
