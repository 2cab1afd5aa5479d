//! The board: its parts, started in order, and what the application sees of them.

use embedded_hal::delay::DelayNs;
use heapless::spsc::Consumer;
use rp2040_hal::clocks::init_clocks_and_plls;
use rp2040_hal::fugit::MicrosDurationU32;
use rp2040_hal::gpio::{DynPinId, FunctionI2C, FunctionSioInput, InOutPin, Pin, Pins, PullUp};
use rp2040_hal::pac::{CorePeripherals, Peripherals};
use rp2040_hal::sio::Sio;
use rp2040_hal::watchdog::Watchdog;
use springline_firmware::board::{Board, Key};
use springline_firmware::drivers::keys::Keys;
use springline_firmware::drivers::ssd1306::Panel;
use springline_firmware::drivers::two_wire;
use springline_firmware::frame::Frame;

use crate::bus::Bus;
use crate::clock::{self, Wait};
use crate::gauge;
use crate::host::Host;

/// The watchdog resets a loop that does not turn for so long.
const WATCHDOG: MicrosDurationU32 = MicrosDurationU32::millis(2_000);
/// A pull-up lifts a line with a long wire in less, microseconds.
const RISE: u32 = 1_000;

type Button = Pin<DynPinId, FunctionSioInput, PullUp>;

/// What is between the application and the world.
pub(crate) struct Handheld {
    panel: Panel<Bus>,
    keys: Keys<Button, 5>,
    gauge: Consumer<'static, u8>,
    host: Host,
    watchdog: Watchdog,
    /// There is something to do at once.
    busy: bool,
}

impl Handheld {
    /// Starts every part; `None` when it was called before, or when a clock does not start.
    pub(crate) fn start() -> Option<Self> {
        let mut core = CorePeripherals::take()?;
        let part = Peripherals::take()?;
        let mut resets = part.RESETS;
        let mut watchdog = Watchdog::new(part.WATCHDOG);
        let clocks = init_clocks_and_plls(
            clock::CRYSTAL,
            part.XOSC,
            part.CLOCKS,
            part.PLL_SYS,
            part.PLL_USB,
            &mut resets,
            &mut watchdog,
        )
        .ok()?;
        watchdog.start(WATCHDOG);
        clock::count(&mut core.SYST);
        let sio = Sio::new(part.SIO);
        let pins = Pins::new(part.IO_BANK0, part.PADS_BANK0, sio.gpio_bank0, &mut resets);
        let lines = [
            (Key::Up, pins.gpio10.into_pull_up_input().into_dyn_pin()),
            (Key::Down, pins.gpio11.into_pull_up_input().into_dyn_pin()),
            (Key::Left, pins.gpio12.into_pull_up_input().into_dyn_pin()),
            (Key::Right, pins.gpio13.into_pull_up_input().into_dyn_pin()),
            (Key::Set, pins.gpio14.into_pull_up_input().into_dyn_pin()),
        ];
        let mut data = InOutPin::new(pins.gpio4.into_pull_type::<PullUp>());
        let mut clock = InOutPin::new(pins.gpio5.into_pull_type::<PullUp>());
        // A bus that stays stuck shows as transfers that fail, and the panel is tried again and again.
        let _ = two_wire::free(&mut data, &mut clock, &mut Wait);
        let _bus: (Pin<_, FunctionI2C, PullUp>, Pin<_, FunctionI2C, PullUp>) = (
            data.release().into_function(),
            clock.release().into_function(),
        );
        let line = (pins.gpio0.reconfigure(), pins.gpio1.reconfigure());
        let gauge = gauge::start(part.UART0, line, &mut resets)?;
        let usb = (part.USBCTRL_REGS, part.USBCTRL_DPRAM);
        let host = Host::start(usb.0, usb.1, clocks.usb_clock, &mut resets)?;
        Wait.delay_us(RISE);
        Some(Self {
            panel: Panel::new(Bus::start(part.I2C0, resets)),
            keys: Keys::new(lines, clock::now()),
            gauge,
            host,
            watchdog,
            busy: true,
        })
    }

    /// Looks after the host port, and sends a part of the picture.
    pub(crate) fn tend(&mut self) {
        let asked = self.host.tend();
        self.busy = self.panel.tend(clock::now()) || asked;
    }

    /// Sleeps until something happens, a byte of the gauge or a millisecond, unless there is something to do.
    pub(crate) fn rest(&self) {
        if !self.busy {
            cortex_m::asm::wfi();
        }
    }
}

impl Board for Handheld {
    fn now(&mut self) -> u32 {
        clock::now()
    }

    fn gauge(&mut self) -> Option<u8> {
        self.gauge.dequeue()
    }

    fn host(&mut self) -> Option<u8> {
        self.host.receive()
    }

    fn key(&mut self) -> Option<Key> {
        self.keys.poll(clock::now())
    }

    fn send(&mut self, byte: u8) -> bool {
        self.host.send(byte)
    }

    fn show(&mut self, frame: &Frame) {
        self.panel.show(frame);
        self.busy = true;
    }

    fn alive(&mut self) {
        self.watchdog.feed();
    }
}
