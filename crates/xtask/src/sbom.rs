//! The list of parts in the package, for programs that look for known weaknesses: CycloneDX 1.5, JSON.
//!
//! In: the parts, the lock file with their checksums. Out: one text, the same for the same parts. Own code, some fields of an open
//! format, because it stands on the same list as the notices and the house's rules (`supply.rs`), so that the three cannot differ.
//! Source: CycloneDX 1.5 (ECMA-424 is its next edition), and package URLs as its `purl` wants them.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use crate::supply::{PROGRAM, Part};

/// The list for the program in this `version`.
pub fn text(version: &str, parts: &[Part], lock: &str) -> Result<String, String> {
    let sums = checksums(lock);
    let components: Vec<Value> = parts.iter().map(|part| component(part, &sums)).collect::<Result<_, _>>()?;
    let bill = json!({
        "bomFormat": "CycloneDX",
        "specVersion": "1.5",
        "version": 1,
        "metadata": {"component": {
            "type": "application",
            "bom-ref": PROGRAM,
            "name": PROGRAM,
            "version": version,
            "licenses": [{"expression": "MIT OR Apache-2.0"}],
        }},
        "components": components,
    });
    serde_json::to_string_pretty(&bill).map(|text| text + "\n").map_err(|e| e.to_string())
}

fn component(part: &Part, sums: &BTreeMap<(String, String), String>) -> Result<Value, String> {
    let Part { name, version, licence, repository, .. } = part;
    let sum = sums
        .get(&(name.clone(), version.clone()))
        .ok_or_else(|| format!("the lock file has no checksum of {name} {version}"))?;
    let url = format!("pkg:cargo/{name}@{version}");
    let mut component = json!({
        "type": "library",
        "bom-ref": url,
        "name": name,
        "version": version,
        "purl": url,
        "hashes": [{"alg": "SHA-256", "content": sum}],
        // The older way to write `OR` is no expression.
        "licenses": [{"expression": licence.replace(" / ", " OR ").replace('/', " OR ")}],
    });
    if let (false, Some(fields)) = (repository.is_empty(), component.as_object_mut()) {
        fields.insert("externalReferences".to_owned(), json!([{"type": "vcs", "url": repository}]));
    }
    Ok(component)
}

/// Name and version to checksum, by the lock file.
fn checksums(lock: &str) -> BTreeMap<(String, String), String> {
    let value = |block: &str, key: &str| {
        let line = block.lines().find_map(|line| line.strip_prefix(key)?.strip_prefix(" = \""));
        line.and_then(|rest| rest.strip_suffix('"')).map(str::to_owned)
    };
    let one =
        |block: &str| Some(((value(block, "name")?, value(block, "version")?), value(block, "checksum")?));
    lock.split("[[package]]").filter_map(one).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_part_is_named_with_its_checksum_and_one_without_is_an_error() {
        let part = Part {
            name: "a".to_owned(),
            version: "1.2.3".to_owned(),
            licence: "MIT/Apache-2.0".to_owned(),
            repository: "https://a.example".to_owned(),
            folder: std::path::PathBuf::new(),
        };
        let lock = "[[package]]\nname = \"a\"\nversion = \"1.2.3\"\nsource = \"x\"\nchecksum = \"0f\"\n\n[[package]]\nname = \"b\"\nversion = \"1.0.0\"\n";
        let made: Value =
            serde_json::from_str(&text("0.1.0", std::slice::from_ref(&part), lock).unwrap()).unwrap();
        let of = |at: &str| made.pointer(at).and_then(Value::as_str).unwrap_or_default().to_owned();
        assert_eq!(of("/components/0/purl"), "pkg:cargo/a@1.2.3");
        assert_eq!(of("/components/0/hashes/0/content"), "0f");
        assert_eq!(of("/components/0/licenses/0/expression"), "MIT OR Apache-2.0");
        let unknown = Part { name: "b".to_owned(), ..part };
        assert!(text("0.1.0", &[unknown], lock).unwrap_err().contains("no checksum"));
    }
}
