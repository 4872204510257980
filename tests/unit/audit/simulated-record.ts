export * from '../../bench/simulated-record';
