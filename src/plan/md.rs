//! The plan as text.
//!
//! In: the plan and who is told it. Out: Markdown. Not here: what is said (`say.rs`).

use core::fmt::{Result, Write as _};

use super::say::Teller;
use super::{Plan, StepPlan, stop_rules};
use crate::markdown::{inline, md};

/// The whole plan.
pub fn text(plan: &Plan, teller: &Teller) -> String {
    let mut out = String::new();
    // Writing into a String cannot fail.
    let _ = head(&mut out, plan, teller).and_then(|()| checklist(&mut out, plan, teller));
    out
}

fn head(out: &mut String, plan: &Plan, teller: &Teller) -> Result {
    writeln!(out, "# {}\n", inline(&teller.title(plan)))?;
    for (what, text) in teller.figures(plan) {
        writeln!(out, "- {what}: {}", inline(&text))?;
    }
    for (plug, torque) in &plan.torques {
        writeln!(out, "- {}: {}", teller.text("label-torques"), teller.torque(*plug, *torque))?;
    }
    list(out, teller.text("plan-not-confirmed"), &teller.unconfirmed(plan))?;
    list(out, teller.text("plan-guessed"), &teller.guessed(plan))?;
    let columns = ["plan-off-by", "label-level-error", "plan-off-pipe"].map(|name| teller.text(name));
    writeln!(out, "\n## {}\n", teller.text("plan-off"))?;
    writeln!(out, "| {} | |\n| --- | ---: | ---: | --- |", columns.join(" | "))?;
    for effect in &plan.sensitivity {
        writeln!(out, "| {} | {} |", teller.off(effect), teller.costs(effect).join(" | "))?;
    }
    Ok(())
}

fn checklist(out: &mut String, plan: &Plan, teller: &Teller) -> Result {
    writeln!(out, "\n## {}\n", teller.text("plan-checklist"))?;
    for step in &plan.steps {
        item(out, step, teller)?;
    }
    let rules: Vec<String> = stop_rules().map(|caution| teller.0.caution(caution).into_owned()).collect();
    list(out, teller.text("plan-stop-rules"), &rules)
}

fn item(out: &mut String, step: &StepPlan, teller: &Teller) -> Result {
    let card = &step.card;
    let (name, who) = (teller.step(card.step), teller.who(card.who));
    writeln!(out, "- [ ] **{name}** ({who}): {}", inline(&teller.says(card)))?;
    for line in teller.lines(card).into_iter().chain(teller.note(card)) {
        writeln!(out, "  - {}", md(&line))?;
    }
    let tools = teller.tools(card);
    if !tools.is_empty() {
        writeln!(out, "  - {}: {}", teller.text("plan-at-hand"), inline(&tools.join(" ")))?;
    }
    for caution in &card.cautions {
        writeln!(out, "  - {}: {}", teller.text("plan-beware"), teller.0.caution(*caution))?;
    }
    Ok(())
}

fn list(out: &mut String, heading: &str, lines: &[String]) -> Result {
    if lines.is_empty() {
        return Ok(());
    }
    writeln!(out, "\n## {heading}\n")?;
    lines.iter().try_for_each(|line| writeln!(out, "- {}", md(line)))
}
