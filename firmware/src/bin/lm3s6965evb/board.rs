//! The board: its parts, started in order, and what the application sees of them.

use cortex_m::peripheral::Peripherals;
use springline_firmware::board::{Board, Key};
use springline_firmware::drivers::keys::Keys;
use springline_firmware::drivers::ssd0323::Ssd0323;
use springline_firmware::frame::Frame;

use crate::clock;
use crate::pins::{self, Input, Output};
use crate::ports::{self, Ports};
use crate::registers::{PORT_A, PORT_C, PORT_D, PORT_E, PORT_F};
use crate::spi::Spi;

/// What is between the application and the world.
pub(crate) struct Handheld {
    panel: Panel,
    keys: Keys<Input, 5>,
    ports: Ports,
}

impl Handheld {
    /// Starts every part; `None` when it was called before.
    pub(crate) fn start() -> Option<Self> {
        let mut core = Peripherals::take()?;
        clock::start();
        clock::count(&mut core.SYST);
        clock::guard();
        // Receive and transmit of UART0, and of UART1.
        pins::lend(PORT_A, 0b11);
        pins::lend(PORT_D, 0b1100);
        let lines = [
            (Key::Up, Input::new(PORT_E, 0)),
            (Key::Down, Input::new(PORT_E, 1)),
            (Key::Left, Input::new(PORT_E, 2)),
            (Key::Right, Input::new(PORT_E, 3)),
            (Key::Set, Input::new(PORT_F, 1)),
        ];
        Some(Self {
            panel: Panel::start(),
            keys: Keys::new(lines, clock::now()),
            ports: Ports::start()?,
        })
    }
}

/// Sleeps until something happens: a byte, or a millisecond.
pub(crate) fn rest() {
    let lost = ports::lost();
    if lost > 0 {
        defmt::warn!("{=u32} bytes lost", lost);
    }
    cortex_m::asm::wfi();
}

impl Board for Handheld {
    fn now(&mut self) -> u32 {
        clock::now()
    }

    fn gauge(&mut self) -> Option<u8> {
        self.ports.gauge.dequeue()
    }

    fn host(&mut self) -> Option<u8> {
        self.ports.host.dequeue()
    }

    fn key(&mut self) -> Option<Key> {
        self.keys.poll(clock::now())
    }

    fn send(&mut self, byte: u8) -> bool {
        ports::send(byte)
    }

    fn show(&mut self, frame: &Frame) {
        self.panel.show(frame);
    }

    fn alive(&mut self) {
        clock::feed();
    }
}

/// The panel on its bus.
pub(crate) struct Panel {
    bus: Spi,
    driver: Ssd0323<Output>,
    /// High: the panel has the bus; low: the card.
    _select: Output,
}

impl Panel {
    /// Starts the bus and darkens the panel. May be called again after the panel's owner has come to grief.
    pub(crate) fn start() -> Self {
        // Clock, receive and transmit.
        pins::lend(PORT_A, 0b11_0100);
        let mut bus = Spi::start();
        let select = Output::new(PORT_D, 0, true);
        let mut driver = Ssd0323::new(Output::new(PORT_C, 7, true));
        // Neither this bus nor its pins can fail.
        let _ = driver.init(&mut bus);
        Self {
            bus,
            driver,
            _select: select,
        }
    }

    /// Shows a picture.
    pub(crate) fn show(&mut self, frame: &Frame) {
        // As above.
        let _ = self.driver.show(&mut self.bus, frame);
    }
}
