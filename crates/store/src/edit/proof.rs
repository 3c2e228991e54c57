//! Holds a changed text against the one it was made from: the value asked for is there, everything else is as before.

use toml::{Table, Value};

use super::{Change, value};

/// Whether the new text differs from the old one by the change and by nothing else.
pub(super) fn holds(old: &str, new: &str, keys: &[String], change: &Change) -> bool {
    let (Ok(mut old), Ok(mut new)) = (toml::from_str::<Table>(old), toml::from_str::<Table>(new))
    else {
        return false;
    };
    match change {
        Change::To(wanted) => {
            let found = take(&mut new, keys);
            take(&mut old, keys);
            prune(&mut old, keys);
            prune(&mut new, keys);
            found.is_some_and(|found| found_is(&found, wanted)) && same(&old, &new)
        }
        Change::Remove => {
            take(&mut old, keys);
            // A section that lost its only part may be gone with it.
            prune(&mut old, keys);
            prune(&mut new, keys);
            same(&old, &new)
        }
        Change::Append(entries) => {
            let count = |table: &Table| length(table, keys);
            let (before, after) = (count(&old).unwrap_or(0), count(&new));
            let mut last = keys.to_vec();
            last.push(before.to_string());
            let added = take(&mut new, &last);
            prune(&mut old, &last);
            prune(&mut new, &last);
            after == Some(before + 1)
                && added.is_some_and(|a| is_table_of(&a, entries))
                && same(&old, &new)
        }
    }
}

fn same(a: &Table, b: &Table) -> bool {
    // As text, because a `nan` in the file does not equal itself.
    sorted(&Value::Table(a.clone())) == sorted(&Value::Table(b.clone()))
}

fn sorted(value: &Value) -> String {
    match value {
        Value::Table(table) => {
            let mut parts: Vec<String> =
                table.iter().map(|(key, value)| format!("{key:?}:{}", sorted(value))).collect();
            parts.sort();
            format!("{{{}}}", parts.join(","))
        }
        Value::Array(list) => {
            format!("[{}]", list.iter().map(sorted).collect::<Vec<_>>().join(","))
        }
        other => format!("{other:?}"),
    }
}

fn is_table_of(found: &Value, entries: &[(String, value::Value)]) -> bool {
    let Value::Table(table) = found else { return false };
    table.len() == entries.len()
        && entries.iter().all(|(key, value)| table.get(key).is_some_and(|f| found_is(f, value)))
}

fn found_is(found: &Value, wanted: &value::Value) -> bool {
    match (found, wanted) {
        (Value::String(a), value::Value::Text(b)) => a == b,
        (Value::Integer(a), value::Value::Integer(b)) => a == b,
        (Value::Float(a), value::Value::Number(b)) => a.to_bits() == b.to_bits(),
        #[expect(
            clippy::cast_precision_loss,
            clippy::float_cmp,
            reason = "whole numbers below 10^15"
        )]
        (Value::Integer(a), value::Value::Number(b)) => *a as f64 == *b,
        (Value::Array(a), value::Value::List(b)) => {
            a.len() == b.len() && a.iter().zip(b).all(|(a, b)| found_is(a, b))
        }
        _ => false,
    }
}

fn child<'a>(value: &'a mut Value, key: &str) -> Option<&'a mut Value> {
    match value {
        Value::Table(table) => table.get_mut(key),
        Value::Array(list) => list.get_mut(key.parse::<usize>().ok()?),
        _ => None,
    }
}

/// Takes out what stands at a path.
fn take(table: &mut Table, keys: &[String]) -> Option<Value> {
    let (last, above) = keys.split_last()?;
    let Some((first, rest)) = above.split_first() else { return table.remove(last) };
    let mut at = table.get_mut(first)?;
    for key in rest {
        at = child(at, key)?;
    }
    match at {
        Value::Table(table) => table.remove(last),
        Value::Array(list) => {
            let index = last.parse::<usize>().ok().filter(|i| *i < list.len())?;
            Some(list.remove(index))
        }
        _ => None,
    }
}

/// Takes away empty tables and lists on the way to a path: a change may make or leave them.
fn prune(table: &mut Table, keys: &[String]) {
    for count in (1..keys.len()).rev() {
        let path = keys.get(..count).unwrap_or_default();
        let mut probe = Value::Table(std::mem::take(table));
        let empty =
            path.iter().try_fold(&mut probe, |at, key| child(at, key)).is_some_and(|at| match at {
                Value::Table(inner) => inner.is_empty(),
                Value::Array(list) => list.is_empty(),
                _ => false,
            });
        if let Value::Table(back) = probe {
            *table = back;
        }
        let entry_of_list = path.last().is_some_and(|key| key.parse::<usize>().is_ok());
        if empty && !entry_of_list {
            take(table, path);
        }
    }
}

/// Number of entries of the list at a path.
fn length(table: &Table, keys: &[String]) -> Option<usize> {
    let (first, rest) = keys.split_first()?;
    let mut at = table.get(first)?;
    for key in rest {
        at = match at {
            Value::Table(table) => table.get(key)?,
            Value::Array(list) => list.get(key.parse::<usize>().ok()?)?,
            _ => return None,
        };
    }
    at.as_array().map(Vec::len)
}
