//! What a check asks beside the hands' own things: why the vehicle is here, whether it leaks, how its fluid looks, and
//! what the answers mean together with the level that was found.
//!
//! Words and types only. When what is asked, and what follows from the answers: `job`.

use crate::Leak;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::words;

words! {
    /// Why the vehicle is here. Several may be told; `none` is an answer too.
    json Symptom {
        Slips "slips" "It slips in gear.",
        Flares "flares" "The engine flares between two gears.",
        Late "late" "It engages late.",
        Hard "hard" "It engages hard.",
        Whine "whine" "It whines.",
        Shudder "shudder" "It shudders.",
        Lamp "lamp" "A lamp came on.",
        Leak "leak" "Fluid was seen under it.",
        WorkedOn "worked-on" "Somebody worked on it lately.",
        None "none" "Nothing was noticed.",
    }
}

words! {
    /// Where it leaks.
    json LeakPlace {
        Pan "pan" "At the pan.",
        Port "pipe-or-plug" "At the pipe or a plug.",
        CoolerLine "cooler-line" "At a cooler line.",
        AxleSeal "axle-seal" "At an axle seal.",
        Converter "converter-housing" "At the converter housing.",
        NotSeen "not-seen" "Its place is not seen.",
    }
}

words! {
    /// How the fluid looks on the first drops. Several may be told.
    json FluidLook {
        Red "red" "Red, or as new.",
        Brown "brown" "Brown.",
        Black "black" "Black.",
        Burnt "burnt" "It smells burnt.",
        Milky "milky" "Milky.",
        Metal "metal" "Metal in it.",
    }
}

words! {
    /// What is asked beside what the hands do. It holds up nothing.
    json Question {
        Symptoms "symptoms" "Why is it here?",
        Leaks "leaks" "Look below: does it leak?",
        LeakPlace "leak-place" "Where does it leak?",
        Fluid "fluid" "The first drops: how does the fluid look?",
    }
}

words! {
    /// What the answers mean together with the level that was found.
    json Meaning {
        OtherCause "other-cause" "The level was right: the symptom has another cause. A change of fluid is no cure. Read the codes.",
        DrivenLow "driven-low" "It was driven low. Ask for slip, read the codes, tell the customer.",
        AskHistory "ask-history" "It was low and no leak is seen. Ask who worked on it, and when.",
        FilledWrong "filled-wrong" "It was too full. Filled cold, or another fluid in it? Ask.",
        Worn "worn" "Black, burnt or metal: it is worn inside. The customer decides.",
        WaterIn "water-in" "Milky: water or coolant is in it. Find where it comes in.",
    }
}

/// A leak as it was told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct LeakTold {
    /// How bad.
    pub how: Leak,
    /// Where; absent where nobody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<LeakPlace>,
}

/// What was told of the vehicle's trouble, before its level was put right and after, and what it means.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Complaint {
    /// Why it is here.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub before: Vec<Symptom>,
    /// What is left of it with the level set.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub after: Vec<Symptom>,
    /// Whether it leaked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leak_before: Option<LeakTold>,
    /// Whether it leaks with the level set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leak_after: Option<LeakTold>,
    /// How the fluid looks.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fluid: Vec<FluidLook>,
    /// What it means together with the level that was found.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub means: Vec<Meaning>,
}

impl Complaint {
    /// Before and after in words, each where something was told: `slips, whine; leak: drops at the pan; fluid: brown`.
    pub fn says(&self) -> [Option<String>; 2] {
        let symptoms = |all: &[Symptom]| {
            let words: Vec<String> = all.iter().map(|s| s.word().replace('-', " ")).collect();
            (!words.is_empty()).then(|| words.join(", "))
        };
        let leak = |told: Option<LeakTold>| {
            let LeakTold { how, place } = told?;
            let place = place.map_or(String::new(), |p| format!(", {}", p.word().replace('-', " ")));
            Some(format!("leak: {how}{place}"))
        };
        let fluid: Vec<&str> = self.fluid.iter().map(|f| f.word()).collect();
        let fluid = (!fluid.is_empty()).then(|| format!("fluid: {}", fluid.join(", ")));
        let join = |parts: [Option<String>; 3]| {
            let parts: Vec<String> = parts.into_iter().flatten().collect();
            (!parts.is_empty()).then(|| parts.join("; "))
        };
        [
            join([symptoms(&self.before), leak(self.leak_before), fluid]),
            join([symptoms(&self.after), leak(self.leak_after), None]),
        ]
    }
}
