//! One simulated line with its clock: ask, and hear what comes. Shared by the tests of the adapter side.

#![allow(dead_code, unreachable_pub, reason = "each test file uses its own part of this")]

use rehearsal::firmware::Firmware;
use rehearsal::{Bus, Car, Fault, SerialLine, Vehicle, World, embedded};
use units::Mono;

pub struct Bench {
    pub car: Car,
    pub now: Mono,
}

impl Bench {
    pub fn new(firmware: &'static Firmware, faults: &[Fault]) -> Self {
        Self::on(Bus::usual(), firmware, faults)
    }

    pub fn on(bus: &'static Bus, firmware: &'static Firmware, faults: &[Fault]) -> Self {
        Self::of(&embedded::six_speed(), bus, firmware, faults)
    }

    pub fn of(
        sheet: &events::Sheet,
        bus: &'static Bus,
        firmware: &'static Firmware,
        faults: &[Fault],
    ) -> Self {
        let mut vehicle = Vehicle::typical(sheet, 21.0);
        vehicle.traits.fluid_noise_k = 0.0;
        let world = World::new(sheet, vehicle, None, faults, 1);
        let line = SerialLine { baud: 38_400, latency_ms: 0.0 };
        let mut bench = Self { car: Car::on(bus, world, sheet, firmware, line, 1), now: Mono::ZERO };
        bench.hear(3_000);
        bench
    }

    /// Everything said within `millis`.
    pub fn hear(&mut self, millis: u64) -> String {
        String::from_utf8_lossy(&self.hear_bytes(millis)).into_owned()
    }

    pub fn hear_bytes(&mut self, millis: u64) -> Vec<u8> {
        self.hear_pieces(millis).concat()
    }

    /// The same, piece by piece as they come.
    pub fn hear_pieces(&mut self, millis: u64) -> Vec<Vec<u8>> {
        let until = self.now.after(std::time::Duration::from_millis(millis));
        let mut heard = Vec::new();
        while let Some(at) = self.car.poll_timeout().filter(|at| *at <= until) {
            self.now = self.now.max(at);
            self.car.handle_timeout(self.now);
            heard.extend(self.car.poll_transmit(self.now));
        }
        self.now = until;
        heard.extend(self.car.poll_transmit(self.now));
        heard
    }

    /// Everything said up to that second since the start.
    pub fn hear_until(&mut self, second: u64) -> String {
        self.hear((second * 1_000).saturating_sub(self.now.as_millis()))
    }

    pub fn ask(&mut self, line: &str) -> String {
        self.send(line);
        self.hear(4_000)
    }

    pub fn send(&mut self, line: &str) {
        self.car.handle_bytes(line.as_bytes(), self.now);
    }

    /// One conversation, in order: what it shows, what is sent, what comes.
    pub fn talk(&mut self, talk: &[(&str, &str, &str)]) {
        for (what, line, want) in talk {
            assert_eq!(self.ask(line), *want, "{what}");
        }
    }
}
