"""Pure shapes in millimeters and radians: frames, section, liner strip, zones, footprints."""
