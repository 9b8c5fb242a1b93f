import { useEffect, useState } from 'react';
import { droppedHandle } from './disk-file';

const holdsFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;

/** Calls back with a file that is dropped anywhere on the page, and with its handle where the browser gives one; true while one is dragged over it. */
export function useDroppedFile(onFile: (file: File, handle: FileSystemFileHandle | undefined) => void): boolean {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const drag = (event: DragEvent): void => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      event.stopPropagation();
      setOver(true);
    };
    const leave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setOver(false);
    };
    const drop = (event: DragEvent): void => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      event.stopPropagation();
      setOver(false);
      const file = event.dataTransfer?.files[0];
      if (file) void droppedHandle(event.dataTransfer?.items[0]).then((handle) => onFile(file, handle));
    };
    // In the capture phase: the grid has drops of its own.
    window.addEventListener('dragover', drag, true);
    window.addEventListener('dragleave', leave, true);
    window.addEventListener('drop', drop, true);
    return () => {
      window.removeEventListener('dragover', drag, true);
      window.removeEventListener('dragleave', leave, true);
      window.removeEventListener('drop', drop, true);
    };
  }, [onFile]);
  return over;
}
