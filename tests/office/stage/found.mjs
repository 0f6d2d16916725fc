// What an inquiry found.

/** Downloads the packet of the car that was found; returns the name the office gives the file. */
export async function downloadsPacket(page, to) {
  const [file] = await Promise.all([page.waitForEvent("download"), page.click(".found >> text=Packet")]);
  await file.saveAs(to);
  return file.suggestedFilename();
}
