//! A sheet as a page of text.
//!
//! In: its text, its hash, the units of the reader. Out: Markdown. Not here: what a plan says (`src/plan.rs`).

use events::{Sheet, SheetError};
use units::text::UnitSystem;

use crate::interview::Interview;
use crate::look::look;

/// The page.
///
/// # Errors
/// Where the text is no sheet.
pub fn page(text: &str, hash: &str, units: UnitSystem) -> Result<String, SheetError> {
    let sheet = Sheet::parse(text)?;
    let interview = Interview::correct(text)?;
    let mut out =
        format!("# {}\n\n| value | is | from | key |\n| --- | --- | --- | --- |\n", plain(&sheet.name));
    for row in interview.rows(units).into_iter().filter(|row| !row.shown.is_empty()) {
        let provenance = sheet.provenance.get(row.key);
        let mut from: Vec<String> = row.source.iter().map(|source| source.word().to_owned()).collect();
        from.extend(provenance.iter().flat_map(|p| [&p.at, &p.by, &p.note].into_iter().flatten().cloned()));
        out += &format!(
            "| {} | {} | {} | `{}` |\n",
            row.label,
            plain(&row.shown),
            plain(&from.join(", ")),
            row.key
        );
    }
    if sheet.look.len() > 1 {
        out += "\n## Looks, in their order\n\n";
        for (n, one) in (1..).zip(&sheet.look) {
            let gate = if one.is_gated() { "inside the band" } else { "at any temperature" };
            out += &format!("{n}. engine {}, {gate}, right at {}", one.engine, one.right);
            if one.then_add_ml > 0.0 {
                out += &format!("; then {:.0} mL are added", one.then_add_ml);
            }
            out.push('\n');
        }
    }
    let looked = look(&sheet);
    let parts = [
        ("Nobody has confirmed", &looked.unconfirmed),
        ("Guessed", &looked.guessed),
        ("Odd", &looked.odd),
        ("Missing", &looked.missing),
    ];
    for (head, findings) in parts.into_iter().filter(|(_, findings)| !findings.is_empty()) {
        out += &format!("\n## {head}\n\n");
        findings.iter().for_each(|finding| out += &format!("- {}\n", plain(&finding.says)));
    }
    if let Some(worth) = &looked.worth {
        out += &format!("\nThe level is ±{:.0} mL at best with this sheet", worth.expanded_ml);
        out += &if worth.guesses.is_empty() {
            ".\n".to_owned()
        } else {
            format!(", ±{:.0} mL if nothing were guessed.\n", worth.known_ml)
        };
    }
    out += &looked.most().map_or(String::new(), |most| format!("{most}\n"));
    out += &format!("\nSHA-256 of its values: `{hash}`\n");
    Ok(out)
}

/// What would end a cell of the table.
fn plain(text: &str) -> String {
    text.replace('|', "/").replace(['<', '>'], "'")
}
