//! The plan as a page to print and take along: figures, what it costs to be off, the checklist with boxes.
//!
//! In: the plan and who is told it. Out: HTML. Not here: what is said (`say.rs`).

use events::Caution;
use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::say::Teller;
use super::{Plan, StepPlan, stop_rules};

const STYLE: &str = "
@page { size: auto; margin: 10mm 12mm }
* { box-sizing: border-box; margin: 0 }
body { font: 8.6pt/1.28 system-ui, 'Noto Sans', 'DejaVu Sans', sans-serif; color: #000; background: #fff; max-width: 188mm; margin: 0 auto; font-variant-numeric: tabular-nums }
@media screen { body { padding: 6mm } }
h1 { font-size: 17pt; border-bottom: 1.2mm solid #000; padding-bottom: 1.5mm } h2 { font-size: 9.6pt; margin: 2.4mm 0 .8mm; break-after: avoid }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .2mm 4mm; margin-top: 2mm } dt { font-weight: 600 }
.two { display: grid; grid-template-columns: 5fr 4fr; gap: 0 7mm; align-items: start }
table { border-collapse: collapse; width: 100% } td, th { text-align: left; padding: .2mm 2mm .2mm 0 } th { font-weight: 600; border-bottom: .3mm solid #000 }
td { white-space: nowrap } td.n, th.n { text-align: right } ul { padding-left: 4mm }
.step { display: grid; grid-template-columns: 5mm 1fr; break-inside: avoid; margin-top: 1mm } .box { width: 3.2mm; height: 3.2mm; border: .35mm solid #000; margin-top: .6mm }
.step p { font-size: 7.8pt } .step p b { font-weight: 600 } footer { margin-top: 2mm; font-size: 7.6pt }
";

/// The whole page.
pub fn page(plan: &Plan, teller: &Teller) -> String {
    html! {
        (DOCTYPE)
        html lang=(teller.0.lang.code()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width,initial-scale=1";
                title { (teller.title(plan)) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                h1 { (teller.title(plan)) }
                dl { @for (what, text) in teller.figures(plan) { dt { (what) } dd { (text) } } }
                (list(teller.text("plan-not-confirmed"), &teller.unconfirmed(plan)))
                (list(teller.text("plan-guessed"), &teller.guessed(plan)))
                div.two { (off(plan, teller)) (beside(plan, teller)) }
                h2 { (teller.text("plan-checklist")) }
                @for step in &plan.steps { (item(step, teller)) }
                footer { (teller.0.caution(Caution::MakerFirst)) }
            }
        }
    }
    .into_string()
}

fn list(heading: &str, lines: &[String]) -> Markup {
    html! { @if !lines.is_empty() { h2 { (heading) } ul { @for line in lines { li { (line) } } } } }
}

fn off(plan: &Plan, teller: &Teller) -> Markup {
    html! {
        div {
            h2 { (teller.text("plan-off")) }
            table {
                tr { th { (teller.text("plan-off-by")) } th.n { (teller.text("label-level-error")) } th.n { (teller.text("plan-off-pipe")) } th {} }
                @for effect in &plan.sensitivity {
                    @let [amount, height, right] = teller.costs(effect);
                    tr { td { (teller.off(effect)) } td.n { (amount) } td.n { (height) } td { (right) } }
                }
            }
        }
    }
}

fn beside(plan: &Plan, teller: &Teller) -> Markup {
    html! {
        div {
            h2 { (teller.text("label-torques")) }
            @if plan.torques.is_empty() { p { (teller.text("as-the-maker-says")) } }
            @for (plug, torque) in &plan.torques { p { (teller.torque(*plug, *torque)) } }
            h2 { (teller.text("plan-stop-rules")) }
            ul { @for caution in stop_rules() { li { (teller.0.caution(caution)) } } }
        }
    }
}

fn item(step: &StepPlan, teller: &Teller) -> Markup {
    let card = &step.card;
    let (tools, cautions) = (teller.tools(card), card.cautions.iter().filter(|c| **c != Caution::MakerFirst));
    let cautions: Vec<String> = cautions.map(|caution| teller.0.caution(*caution).into_owned()).collect();
    html! {
        div.step {
            div.box {}
            div {
                b { (teller.step(card.step)) } " (" (teller.who(card.who)) ") " (teller.says(card))
                @for line in teller.lines(card).into_iter().chain(teller.note(card)) { p { (line) } }
                @if !tools.is_empty() { p { b { (teller.text("plan-at-hand")) ": " } (tools.join(" ")) } }
                @if !cautions.is_empty() { p { b { (teller.text("plan-beware")) ": " } (cautions.join(" ")) } }
            }
        }
    }
}
