//! The host port: a serial port over USB, which is looked after by polling.
//!
//! The part itself answers a host that asks before it is polled with "not yet". So a loop that is late costs time and no bytes.

use rp2040_hal::clocks::UsbClock;
use rp2040_hal::pac::{RESETS, USBCTRL_DPRAM, USBCTRL_REGS};
use rp2040_hal::usb::UsbBus;
use usb_device::UsbError;
use usb_device::bus::UsbBusAllocator;
use usb_device::device::{
    StringDescriptors, UsbDevice, UsbDeviceBuilder, UsbDeviceState, UsbVidPid,
};
use usbd_serial::{SerialPort, USB_CLASS_CDC};

/// A number for tests within one's own walls. It is not unique: a device that is handed on must have its own (`pid.codes`,
/// its policy for test PIDs).
const TEST_ID: UsbVidPid = UsbVidPid(0x1209, 0x0001);
/// The largest packet of the control endpoint. Smaller ones make some hosts stumble when they are answered late.
const CONTROL: u8 = 64;

/// Bytes that are taken between two looks at the port, a packet of it. A host can send faster than the application reads; a
/// loop that took all there is would never turn.
const ROOM: usize = 64;

/// The port.
pub(crate) struct Host {
    device: UsbDevice<'static, UsbBus>,
    serial: SerialPort<'static, UsbBus>,
    /// What was received, from its first byte that was not asked for yet to its end.
    packet: [u8; ROOM],
    from: usize,
    to: usize,
}

impl Host {
    /// Starts the port; `None` when it was called before.
    pub(crate) fn start(
        registers: USBCTRL_REGS,
        memory: USBCTRL_DPRAM,
        clock: UsbClock,
        resets: &mut RESETS,
    ) -> Option<Self> {
        // The board has no pin that tells of a host's supply: as if one were always there.
        let bus = UsbBus::new(registers, memory, clock, true, resets);
        let bus: &'static _ =
            cortex_m::singleton!(: UsbBusAllocator<UsbBus> = UsbBusAllocator::new(bus))?;
        // The port comes first: it takes what endpoints it needs.
        let serial = SerialPort::new(bus);
        let texts = StringDescriptors::default()
            .manufacturer("Springline")
            .product("Springline handheld")
            .serial_number(crate::run::SERIAL);
        let device = UsbDeviceBuilder::new(bus, TEST_ID)
            .strings(&[texts])
            .ok()?
            .max_packet_size_0(CONTROL)
            .ok()?
            .device_class(USB_CLASS_CDC)
            .build();
        Some(Self {
            device,
            serial,
            packet: [0; ROOM],
            from: 0,
            to: 0,
        })
    }

    /// Does what the host asks of the bus, many times a second. Whether it sent something.
    pub(crate) fn tend(&mut self) -> bool {
        self.device.poll(&mut [&mut self.serial]);
        // What waits for room or for a last short packet goes as soon as it can. About an error there is nothing to be done.
        let _ = self.serial.flush();
        if self.from == self.to {
            (self.from, self.to) = (0, self.serial.read(&mut self.packet).unwrap_or(0));
        }
        self.from < self.to
    }

    /// The next byte that the host sent, if one has come.
    pub(crate) fn receive(&mut self) -> Option<u8> {
        let byte = *self.packet.get(self.from..self.to)?.first()?;
        self.from += 1;
        Some(byte)
    }

    /// Sends a byte; `false` when there is no room now.
    pub(crate) fn send(&mut self, byte: u8) -> bool {
        // What nobody is there to hear is dropped, or the next host would get the end of it.
        self.device.state() != UsbDeviceState::Configured
            || self.serial.write(&[byte]) != Err(UsbError::WouldBlock)
    }
}
