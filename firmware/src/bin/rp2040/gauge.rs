//! The gauge port, a UART whose interrupt moves received bytes into a queue.

use core::cell::RefCell;

use cortex_m::interrupt::{Mutex, free};
use cortex_m::peripheral::NVIC;
use heapless::spsc::{Consumer, Queue};
use rp2040_hal::fugit::HertzU32;
use rp2040_hal::gpio::bank0::{Gpio0, Gpio1};
use rp2040_hal::gpio::{FunctionUart, Pin, PullNone, PullUp};
use rp2040_hal::pac::{Interrupt, RESETS, UART0, interrupt};
use rp2040_hal::uart::{DataBits, Enabled, ReadErrorType, StopBits, UartConfig, UartPeripheral};
use springline_firmware::drivers::intake::Intake;

use crate::clock;

/// Bits in a second; eight of data, no parity, one stop bit. What most gauges with lines of text send (common practice, no source).
const BAUD: u32 = 9600;
/// A gauge says a dozen bytes at a time; a queue holds one less than its size.
const ROOM: usize = 128;

/// Out to the gauge and in from it. An open plug must read as a line at rest.
pub(crate) type Pins = (
    Pin<Gpio0, FunctionUart, PullNone>,
    Pin<Gpio1, FunctionUart, PullUp>,
);

/// The port, and the end of the queue that its interrupt fills.
struct Port {
    uart: UartPeripheral<Enabled, UART0, Pins>,
    intake: Intake<'static>,
}

/// Shared with the interrupt.
static PORT: Mutex<RefCell<Option<Port>>> = Mutex::new(RefCell::new(None));

/// Starts the port; what it receives, or `None` when it was called before.
pub(crate) fn start(uart: UART0, pins: Pins, resets: &mut RESETS) -> Option<Consumer<'static, u8>> {
    let (producer, consumer) = cortex_m::singleton!(: Queue<u8, ROOM> = Queue::new())?.split();
    let baud = HertzU32::from_raw(BAUD);
    let line = UartConfig::new(baud, DataBits::Eight, None, StopBits::One);
    let uart = UartPeripheral::new(uart, pins, resets);
    // Only a clock that no rate can be made of is refused.
    let mut uart = uart.enable(line, HertzU32::from_raw(clock::HERTZ)).ok()?;
    // A queue of the part half full makes an interrupt, or fewer bytes and a pause.
    uart.enable_rx_interrupt();
    let intake = Intake::new(producer);
    free(|token| {
        if let Ok(mut slot) = PORT.borrow(token).try_borrow_mut() {
            *slot = Some(Port { uart, intake });
        }
    });
    // SAFETY: the queue is in place; no lock relies on this interrupt being masked.
    unsafe { NVIC::unmask(Interrupt::UART0_IRQ) };
    Some(consumer)
}

#[interrupt]
fn UART0_IRQ() {
    free(|token| {
        // Never borrowed twice: nothing interrupts a critical section.
        if let Ok(mut slot) = PORT.borrow(token).try_borrow_mut()
            && let Some(port) = slot.as_mut()
        {
            receive(port);
        }
    });
}

fn receive(Port { uart, intake }: &mut Port) {
    let mut byte = [0];
    loop {
        match uart.read_raw(&mut byte) {
            Ok(_) => {
                intake.take(byte[0]);
            }
            Err(nb::Error::WouldBlock) => return,
            Err(nb::Error::Other(error)) => {
                // Where the part lost bytes they lie before or behind the one that tells of it.
                let (whole, overrun) = (error.discarded.first().copied(), error.err_type);
                intake.lose();
                if let (Some(byte), ReadErrorType::Overrun) = (whole, overrun) {
                    intake.take(byte);
                    intake.lose();
                }
            }
        }
    }
}
