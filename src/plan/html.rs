//! The plan as a page to print and take along: figures, what it costs to be off, the checklist with boxes.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use units::text::{UnitSystem, show_newton_metres};

use super::{Plan, StepPlan, stop_rules};

const STYLE: &str = "
@page { size: auto; margin: 10mm 12mm }
* { box-sizing: border-box; margin: 0 }
body { font: 8.6pt/1.28 system-ui, 'DejaVu Sans', sans-serif; color: #000; background: #fff; max-width: 188mm; margin: 0 auto; font-variant-numeric: tabular-nums }
@media screen { body { padding: 6mm } }
h1 { font-size: 17pt; border-bottom: 1.2mm solid #000; padding-bottom: 1.5mm } h2 { font-size: 9.6pt; margin: 2.4mm 0 .8mm }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .2mm 4mm; margin-top: 2mm } dt { font-weight: 600 }
.two { display: grid; grid-template-columns: 1fr 1fr; gap: 0 7mm; align-items: start }
table { border-collapse: collapse; width: 100% } td, th { text-align: left; padding: .2mm 2mm .2mm 0 } th { font-weight: 600; border-bottom: .3mm solid #000 }
td.n, th.n { text-align: right; white-space: nowrap } ul { padding-left: 4mm }
.step { display: grid; grid-template-columns: 5mm 1fr; break-inside: avoid; margin-top: 1mm } .box { width: 3.2mm; height: 3.2mm; border: .35mm solid #000; margin-top: .6mm }
.step p { font-size: 7.8pt } .step p b { font-weight: 600 } footer { margin-top: 2mm; font-size: 7.6pt }
";

/// The whole page.
pub fn page(plan: &Plan, units: UnitSystem) -> String {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width,initial-scale=1";
                title { "Plan: " (plan.sheet) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                h1 { "Plan: " (plan.sheet) }
                dl { @for (what, text) in plan.figures_of_the_looks(units) { dt { (what) } dd { (text) } } }
                @if !plan.unconfirmed.is_empty() {
                    h2 { "Nobody has confirmed" }
                    ul { @for says in &plan.unconfirmed { li { (says) } } }
                }
                @if !plan.guessed.is_empty() {
                    h2 { "Guessed" }
                    ul { @for guess in &plan.guessed { li { (guess.says) } } }
                    @if let Some(most) = &plan.most { p { (most) } }
                }
                div.two {
                    div {
                        h2 { "What it costs to be off" }
                        table {
                            tr { th { "off by" } th.n { "mL" } th.n { "mm at the pipe" } th {} }
                            @for effect in &plan.sensitivity {
                                tr {
                                    td { (effect.off(units)) }
                                    td.n { (format!("{:+.0}", effect.millilitres)) }
                                    td.n { (format!("{:+.1}", effect.millimetres)) }
                                    td { (effect.verdict()) }
                                }
                            }
                        }
                    }
                    div {
                        h2 { "Torques" }
                        @if plan.torques_newton_metres.is_empty() { p { "as the vehicle's maker specifies" } }
                        table {
                            @for (plug, torque) in &plan.torques_newton_metres {
                                tr { td { (plug) } td.n { (show_newton_metres(*torque, units)) } }
                            }
                        }
                        h2 { "When to stop, whatever the step" }
                        ul { @for caution in stop_rules() { li { (caution.says()) } } }
                    }
                }
                h2 { "Checklist" }
                @for step in &plan.steps { (item(step)) }
                footer { (events::Caution::MakerFirst.says()) }
            }
        }
    }
    .into_string()
}

fn item(step: &StepPlan) -> Markup {
    html! {
        div.step {
            div.box {}
            div {
                b { (step.step) } " (" (step.who) ") " (step.says)
                @for line in step.lines.iter().chain(&step.note) { p { (line) } }
                @if !step.tools.is_empty() { p { b { "at hand: " } (step.tools.join(", ")) } }
                @let cautions: Vec<&str> =
                    step.cautions.iter().filter(|c| **c != events::Caution::MakerFirst).map(|c| c.says()).collect();
                @if !cautions.is_empty() { p { b { "beware: " } (cautions.join(" ")) } }
            }
        }
    }
}
