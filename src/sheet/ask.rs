//! Asks for a new sheet on the terminal, question by question, and writes it.
//!
//! In: lines of answers, from a person or a file. Out: a sheet's file, and until then a draft beside it, written after each answer.
//! Not here: the questions and what an answer makes of the sheet (`sheets`).

use std::io::BufRead;
use std::path::{Path, PathBuf};

use sheets::{AnswerOutcome, Asked, Draft, Interview};

use super::{beside, create, exists, replace, tell, text, today};
use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// `sheet new`.
pub fn new(
    into: &Path,
    by: Option<&str>,
    afresh: bool,
    answers: &mut dyn BufRead,
    screen: Screen,
) -> Result<(), Failure> {
    if into.exists() {
        return Err(exists(into));
    }
    let draft = beside(into, "draft");
    let mut interview = begin(into, &draft, afresh)?.by(by.map(str::to_owned));
    tell(
        "Three questions make a sheet. An empty line takes what stands in brackets.\n\
         `?` helps, `back` goes back, `skip` and `I don't know` are answers, `stop` goes on later.\n\
         Say where a value comes from in brackets: 40 Nm (measured), 35-45 °C (maker, page 12).\n",
    );
    let mut could_write = interview.can_write();
    while let Some(asked) = interview.asks() {
        tell(&question(&asked));
        let mut line = String::new();
        let read = answers
            .read_line(&mut line)
            .map_err(|e| Failure::new(Exit::InputOutput, format!("cannot read the answer: {e}")))?;
        if read == 0 {
            return Err(kept(into, &draft, "the answers ended"));
        }
        match interview.hear(&line, &today()) {
            AnswerOutcome::Taken { says } => {
                keep(&draft, interview.draft())?;
                if !says.is_empty() {
                    tell(&format!("  {says}"));
                }
                if interview.can_write() && !could_write {
                    could_write = true;
                    tell(
                        "\nThat is a sheet. `done` writes it at any time; what nobody gives is marked as guessed.",
                    );
                }
            }
            AnswerOutcome::Again { why } => tell(&format!("  {why}")),
            AnswerOutcome::Help { says } => tell(&format!("  {}", says.replace('\n', "\n  "))),
            AnswerOutcome::Written => break,
            AnswerOutcome::Stopped => {
                keep(&draft, interview.draft())?;
                tell(&format!(
                    "Kept in {}. Go on with: standpipe sheet new {}",
                    draft.display(),
                    into.display()
                ));
                return Ok(());
            }
        }
    }
    let (text, sheet) =
        interview.sheet().map_err(|e| kept(into, &draft, &format!("these answers make no sheet: {e}")))?;
    create(into, &text)?;
    // The answers are in the sheet now.
    std::fs::remove_file(&draft).ok();
    let looked = sheets::look(&sheet);
    looked.unconfirmed.iter().for_each(|f| tell(&format!("Not confirmed: {}.", f.says)));
    if let Some(most) = looked.most() {
        tell(&most);
    }
    let path = into.display();
    screen.line(&format!(
        "written to {path}; next: standpipe sheet check {path}, then standpipe plan --sheet {path}"
    ))
}

/// What was kept is taken up again.
fn begin(into: &Path, draft: &Path, afresh: bool) -> Result<Interview, Failure> {
    if afresh || !draft.exists() {
        return Ok(anew(into));
    }
    let interview = Interview::resume(read(draft)?);
    if interview.draft().known.is_some() {
        tell("The identifier that was found is in it.");
    }
    tell(&format!("{} answers were kept; on with the next. `--afresh` begins anew.", interview.answered()));
    Ok(interview)
}

fn anew(into: &Path) -> Interview {
    let name = into.file_stem().map_or("new sheet".to_owned(), |stem| stem.to_string_lossy().into_owned());
    Interview::new(events::text::shown(&name).as_ref())
}

fn read(draft: &Path) -> Result<Draft, Failure> {
    serde_json::from_str(&text(draft)?).map_err(|e| {
        Failure::new(
            Exit::Data,
            format!("the answers that were kept in {} cannot be read: {e}", draft.display()),
        )
        .try_this("`--afresh` begins anew")
    })
}

/// Keeps values that are known beforehand, as TOML, for `sheet new`; answers that were kept stay. Gives where they lie.
///
/// # Errors
/// Where the draft cannot be read or written.
pub fn begin_with(into: &Path, known: &str) -> Result<PathBuf, Failure> {
    let path = beside(into, "draft");
    let draft = if path.exists() { read(&path)? } else { anew(into).draft().clone() };
    let interview = Interview::knowing(draft, known)
        .map_err(|e| Failure::new(Exit::Software, format!("what was found cannot be kept: {e}")))?;
    keep(&path, interview.draft())?;
    Ok(path)
}

fn keep(path: &Path, draft: &Draft) -> Result<(), Failure> {
    replace(path, &serde_json::to_string_pretty(draft).unwrap_or_default())
}

fn kept(into: &Path, draft: &Path, why: &str) -> Failure {
    let kept = if draft.exists() {
        format!("; what was said is kept in {}", draft.display())
    } else {
        String::new()
    };
    Failure::new(Exit::Data, format!("{why}{kept}"))
        .try_this(format!("go on with `standpipe sheet new {}`", into.display()))
}

/// A question for the terminal.
fn question(asked: &Asked) -> String {
    let mut out = format!("\n{}. {}\n", asked.number, asked.asks);
    for (n, [word, says]) in (1..).zip(&asked.choices) {
        out += &format!("   {n}  {word}: {says}\n");
    }
    out += &format!("   {}\n", asked.means);
    if !asked.like.is_empty() {
        out += &format!("   Like: {}\n", asked.like);
    }
    let mark = if asked.guess { ", a guess" } else { "" };
    out + &asked
        .stands
        .as_ref()
        .map_or("   [left out] >".to_owned(), |stands| format!("   [{stands}{mark}] >"))
}
