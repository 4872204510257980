export * from '../../bench/made-up';
