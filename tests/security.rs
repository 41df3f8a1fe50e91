//! `docs/security.md` names a test for every attack, `docs/adapters.md` one for every behaviour; each of them exists.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test")]

use std::path::Path;

fn sources(folder: &Path, into: &mut String) {
    for entry in std::fs::read_dir(folder).unwrap().map(Result::unwrap) {
        let (path, name) = (entry.path(), entry.file_name());
        if path.is_dir() && name != "target" && !name.to_string_lossy().starts_with('.') {
            sources(&path, into);
        } else if path.extension().is_some_and(|e| e == "rs") {
            *into += &std::fs::read_to_string(path).unwrap();
        }
    }
}

#[test]
fn every_test_that_the_pages_about_security_and_adapters_name_exists() {
    for (page, least) in [("docs/security.md", 40), ("docs/adapters.md", 50)] {
        named_tests_exist(page, least);
    }
}

fn named_tests_exist(page: &str, least: usize) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut code = String::new();
    for folder in ["src", "crates", "tests"] {
        sources(&root.join(folder), &mut code);
    }
    let page = std::fs::read_to_string(root.join(page)).unwrap();
    let rows = page.lines().filter(|l| l.starts_with("| ") && l.matches('|').count() == 4);
    let named = rows.filter_map(|l| l.rsplit('|').nth(1)).flat_map(|cell| cell.split('`').skip(1).step_by(2));
    let named: Vec<&str> = named.filter(|name| name.matches('_').count() > 2).collect();
    assert!(named.len() > least, "the table was read: {named:?}");
    let missing: Vec<&&str> = named.iter().filter(|name| !code.contains(&format!("fn {name}("))).collect();
    assert!(missing.is_empty(), "{missing:?}");
}
