//! What he does once the check port is closed for good: the jug, the plugs, the drive, the record.
//!
//! In and out as in `work.rs`, whose tasks these are.

use events::{Precondition, Request};
use units::Millilitres;

use super::Technician;
use super::work::Task;
use crate::thermal::Engine;
use crate::world::{Plug, World};

impl Technician {
    pub(super) fn measure(&mut self, world: &mut World) -> f64 {
        if world.engine() == Engine::Running {
            world.stop_engine();
            self.note("stops the engine");
            self.tell_engine(world);
        }
        let caught = world.out().caught_ml;
        if caught > 0.0 {
            let read = self.jug(caught);
            let celsius = self.thermometer(world.fluid_celsius());
            self.note(&format!("reads the jug: {read:.0} mL ran out"));
            self.tell(Request::RanOut { millilitres: Millilitres::clamped(read), celsius: Some(celsius) });
        }
        self.then(Task::Tighten, 120.0)
    }

    pub(super) fn tighten(&mut self) -> f64 {
        self.note("tightens the plugs to the torques of the sheet");
        self.tell(Request::Torqued);
        let next = if self.book.trickled { Task::Wipe } else { Task::Finish };
        self.then(next, 120.0)
    }

    pub(super) fn wipe(&mut self, world: &mut World) -> f64 {
        if self.sheet.before.cooler_bypass {
            world.pin_bypass(Plug::Out);
            self.confirm(Precondition::BypassOut);
        }
        self.note("wipes it dry and comes out");
        self.confirm(Precondition::Clear);
        self.then(Task::LookForLeaks, 8.0)
    }

    /// The engine idles some minutes before anybody looks for drops.
    pub(super) fn look_for_leaks(&mut self, world: &mut World) -> f64 {
        if world.engine() != Engine::Running {
            world.start_engine();
            self.note("starts the engine for the look");
            self.tell_engine(world);
            return self.takes(300.0);
        }
        self.note("looks for leaks: none");
        self.confirm(Precondition::NoLeak);
        self.then(Task::Lower, 20.0)
    }

    pub(super) fn lower(&mut self) -> f64 {
        self.note("comes out, tools too");
        self.confirm(Precondition::Clear);
        self.then(Task::Drive, 30.0)
    }

    pub(super) fn drive(&mut self, world: &mut World) -> f64 {
        world.pin_bypass(Plug::Out);
        world.start_engine();
        self.tell_engine(world);
        world.drive(30.0);
        self.note("lowers the vehicle and drives a short distance");
        self.book.raised = false;
        self.then(Task::Return, 180.0)
    }

    pub(super) fn come_back(&mut self, world: &mut World) -> f64 {
        world.drive(0.0);
        world.stop_engine();
        self.tell_engine(world);
        self.note("looks for leaks: none");
        self.tell(Request::TestDriven);
        self.then(if self.script.by_advice { Task::Obey } else { Task::Finish }, 30.0)
    }

    pub(super) fn finish(&mut self) -> f64 {
        self.note("writes the record");
        self.tell(Request::Done);
        self.then(Task::Leave, 5.0)
    }

    pub(super) fn leave(&mut self) -> f64 {
        if self.refused.take().is_some_and(|(word, _)| word == "done") {
            self.note("ends the job by hand");
            self.tell(Request::Abort { why: "the job could not be ended otherwise".to_owned() });
        }
        "has gone home".clone_into(&mut self.doing);
        self.then(Task::Gone, 1.0)
    }
}
